import '../kit/page/theme.css';
import '../kit/plank/plank.css';
import './sawyer.css';
import '../kit/hearing/hearing.css';
import { runAsked } from '../kit/link/asked.ts';
import { openRunLink } from '../kit/link/runLink.ts';
import { showPage } from '../kit/page/showPage.ts';
import { keepAwake } from '../kit/page/wakeLock.ts';
import { ChooseRun } from '../kit/parts/ChooseRun.tsx';
import { SawyerPage } from './SawyerPage.tsx';

const run = runAsked();
if (run === null) showPage(<ChooseRun page="sawyer" />);
else {
  keepAwake();
  showPage(<SawyerPage link={openRunLink(run, 'sawyer')} />);
}

import '../kit/theme.css';
import '../kit/plank.css';
import './sawyer.css';
import '../kit/hearing/hearing.css';
import { runAsked } from '../kit/asked.ts';
import { ChooseRun } from '../kit/ChooseRun.tsx';
import { openRunLink } from '../kit/runLink.ts';
import { showPage } from '../kit/showPage.ts';
import { keepAwake } from '../kit/wakeLock.ts';
import { SawyerPage } from './SawyerPage.tsx';

const run = runAsked();
if (run === null) showPage(<ChooseRun page="sawyer" />);
else {
  keepAwake();
  showPage(<SawyerPage link={openRunLink(run, 'sawyer')} />);
}

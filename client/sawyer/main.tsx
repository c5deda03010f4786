import { render } from 'preact';
import '../kit/theme.css';
import '../kit/plank.css';
import './sawyer.css';
import '../kit/hearing/hearing.css';
import { runAsked } from '../kit/asked.ts';
import { ChooseRun } from '../kit/ChooseRun.tsx';
import { openRunLink } from '../kit/runLink.ts';
import { keepAwake } from '../kit/wakeLock.ts';
import { SawyerPage } from './SawyerPage.tsx';

const page = document.getElementById('page');
const run = runAsked();
if (page !== null) {
  if (run === null) render(<ChooseRun page="sawyer" />, page);
  else {
    keepAwake();
    render(<SawyerPage link={openRunLink(run, 'sawyer')} />, page);
  }
}

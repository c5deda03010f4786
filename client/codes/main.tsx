import '../kit/theme.css';
import './codes.css';
import { runAsked } from '../kit/asked.ts';
import { ChooseRun } from '../kit/ChooseRun.tsx';
import { showPage } from '../kit/showPage.ts';
import { CodesPage } from './CodesPage.tsx';

const run = runAsked();
showPage(run === null ? <ChooseRun page="codes" /> : <CodesPage run={run} />);

import '../kit/page/theme.css';
import './codes.css';
import { runAsked } from '../kit/link/asked.ts';
import { showPage } from '../kit/page/showPage.ts';
import { ChooseRun } from '../kit/parts/ChooseRun.tsx';
import { CodesPage } from './CodesPage.tsx';

const run = runAsked();
showPage(run === null ? <ChooseRun page="codes" /> : <CodesPage run={run} />);

import '../kit/theme.css';
import '../drawing/loft.css';
import '../kit/table.css';
import './record.css';
import { runAsked } from '../kit/asked.ts';
import { ChooseRun } from '../kit/ChooseRun.tsx';
import { showPage } from '../kit/showPage.ts';
import { RecordPage } from './RecordPage.tsx';

const run = runAsked();
showPage(run === null ? <ChooseRun page="record" /> : <RecordPage run={run} />);

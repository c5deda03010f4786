import '../kit/page/theme.css';
import '../drawing/loft.css';
import '../kit/page/table.css';
import './record.css';
import { runAsked } from '../kit/link/asked.ts';
import { showPage } from '../kit/page/showPage.ts';
import { ChooseRun } from '../kit/parts/ChooseRun.tsx';
import { RecordPage } from './RecordPage.tsx';

const run = runAsked();
showPage(run === null ? <ChooseRun page="record" /> : <RecordPage run={run} />);

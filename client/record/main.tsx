import { render } from 'preact';
import '../kit/theme.css';
import '../drawing/loft.css';
import '../kit/table.css';
import './record.css';
import { runAsked } from '../kit/asked.ts';
import { ChooseRun } from '../kit/ChooseRun.tsx';
import { RecordPage } from './RecordPage.tsx';

const page = document.getElementById('page');
const run = runAsked();
if (page !== null) render(run === null ? <ChooseRun page="record" /> : <RecordPage run={run} />, page);

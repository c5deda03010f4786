import { render } from 'preact';
import '../kit/theme.css';
import './codes.css';
import { runAsked } from '../kit/asked.ts';
import { ChooseRun } from '../kit/ChooseRun.tsx';
import { CodesPage } from './CodesPage.tsx';

const page = document.getElementById('page');
const run = runAsked();
if (page !== null) render(run === null ? <ChooseRun page="codes" /> : <CodesPage run={run} />, page);

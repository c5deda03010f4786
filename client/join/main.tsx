import { render } from 'preact';
import '../kit/theme.css';
import './join.css';
import { JoinPage } from './JoinPage.tsx';

const page = document.getElementById('page');
if (page !== null) render(<JoinPage />, page);

import { render } from 'preact';
import '../kit/theme.css';
import '../kit/table.css';
import './start.css';
import { StartPage } from './StartPage.tsx';

const page = document.getElementById('page');
if (page !== null) render(<StartPage />, page);

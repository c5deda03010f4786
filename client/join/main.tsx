import '../kit/page/theme.css';
import './join.css';
import { showPage } from '../kit/page/showPage.ts';
import { JoinPage } from './JoinPage.tsx';

showPage(<JoinPage />);

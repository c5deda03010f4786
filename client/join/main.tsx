import '../kit/theme.css';
import './join.css';
import { showPage } from '../kit/showPage.ts';
import { JoinPage } from './JoinPage.tsx';

showPage(<JoinPage />);

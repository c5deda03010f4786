import '../kit/theme.css';
import '../kit/table.css';
import './start.css';
import { showPage } from '../kit/showPage.ts';
import { StartPage } from './StartPage.tsx';

showPage(<StartPage />);

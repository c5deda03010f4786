import '../kit/page/theme.css';
import '../kit/page/table.css';
import './start.css';
import { showPage } from '../kit/page/showPage.ts';
import { StartPage } from './StartPage.tsx';

showPage(<StartPage />);

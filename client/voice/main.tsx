import '../kit/page/theme.css';
import './voice.css';
import { showPage } from '../kit/page/showPage.ts';
import { VoicePage } from './VoicePage.tsx';

showPage(<VoicePage />);

import '../kit/theme.css';
import './voice.css';
import { showPage } from '../kit/showPage.ts';
import { VoicePage } from './VoicePage.tsx';

showPage(<VoicePage />);

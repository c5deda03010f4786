import { render } from 'preact';
import '../kit/theme.css';
import './voice.css';
import { VoicePage } from './VoicePage.tsx';

const page = document.getElementById('page');
if (page !== null) render(<VoicePage />, page);

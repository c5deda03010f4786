import '../kit/theme.css';
import '../kit/plank.css';
import './wheel.css';
import '../kit/hearing/hearing.css';
import { runAsked } from '../kit/asked.ts';
import { ChooseRun } from '../kit/ChooseRun.tsx';
import { openEarSettings } from '../kit/hearing/earSettings.ts';
import { Loudspeaker } from '../kit/loudspeaker.ts';
import { openRunLink } from '../kit/runLink.ts';
import { showPage } from '../kit/showPage.ts';
import { speakRun } from '../kit/speakRun.ts';
import { keepAwake } from '../kit/wakeLock.ts';
import { WheelPage } from './WheelPage.tsx';

const run = runAsked();
/** A display without a voice: somebody else's ears are the listener. */
const isMute = new URLSearchParams(location.search).get('sound') === 'off';

if (run === null) showPage(<ChooseRun page="wheel" />);
if (run !== null) {
  keepAwake();
  const link = openRunLink(run, 'wheel');
  const loudspeaker = isMute ? null : new Loudspeaker(run);
  const settings = openEarSettings('wheel');
  if (loudspeaker !== null) speakRun({ link, loudspeaker, settings, role: 'wheel', label: 'Wheel display' });
  showPage(<WheelPage link={link} loudspeaker={loudspeaker} settings={settings} />);
}

import '../kit/page/theme.css';
import '../kit/plank/plank.css';
import './wheel.css';
import '../kit/hearing/hearing.css';
import { openEarSettings } from '../kit/hearing/earSettings.ts';
import { runAsked } from '../kit/link/asked.ts';
import { openRunLink } from '../kit/link/runLink.ts';
import { showPage } from '../kit/page/showPage.ts';
import { keepAwake } from '../kit/page/wakeLock.ts';
import { ChooseRun } from '../kit/parts/ChooseRun.tsx';
import { Loudspeaker } from '../kit/sound/loudspeaker.ts';
import { speakRun } from '../kit/sound/speakRun.ts';
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

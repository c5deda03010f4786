/** What of the pages' own sound code a test has in its page: bundled by `loudspeakerPage.ts`. */

export { cueSamples } from '../../client/kit/hearing/cues.ts';
export { AlarmTone } from '../../client/kit/sound/alarmTone.ts';
export { audioTimeS, leavesAtMs } from '../../client/kit/sound/audioTime.ts';
export { Loudspeaker } from '../../client/kit/sound/loudspeaker.ts';

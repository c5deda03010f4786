/** What of the pages' own sound code a test has in its page: bundled by `loudspeakerPage.ts`. */
export { AlarmTone } from '../../client/kit/alarmTone.ts';
export { audioTimeS, leavesAtMs } from '../../client/kit/audioTime.ts';
export { cueSamples } from '../../client/kit/hearing/cues.ts';
export { Loudspeaker } from '../../client/kit/loudspeaker.ts';

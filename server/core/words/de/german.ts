import type { Grammar } from '../grammar.ts';
import { NUMERALS, partsOfNumber } from './germanCardinal.ts';
import { MEASURED } from './germanMeasuredWords.ts';
import { figure, mark } from './germanNumbers.ts';
import { spelling } from './germanSpelling.ts';

export const german: Grammar = {
  name: 'Deutsch',
  figure,
  minus: 'minus',
  mark,
  /**
   * Each begins with what is to be done. The tilt "bleibt": "halten" is also to stop. The wood "bleibt im Schnitt", which says
   * the same as not to pull it back and cannot lose a "nicht".
   */
  phrases: {
    stopFeed: 'stopp Vorschub, Neigung bleibt',
    signalLost:
      'stopp Vorschub, Neigung bleibt, Signal fehlt, Säge aus, warten bis das Blatt steht, Holz bleibt im Schnitt',
    pulledBack: 'stopp Vorschub, Holz bleibt, Neigung bleibt, Säge aus',
    easeFeed: 'Vorschub langsamer',
    /** The wood behind the last mark is still to be sawn. */
    runDone: 'letzte Schmiege, Neigung bleibt bis zum Ende',
    soundTest: 'Tonprobe, eins zwo drei',
  },
  turns: { more: 'mehr', less: 'weniger' },
  letters: 'A-Za-zÄÖÜäöüß',
  figureWords: [
    ...NUMERALS,
    ...['ein', 'einhalb', 'einviertel', 'dreiviertel', 'halb', 'viertel', 'komma', 'minus', 'marke'],
  ],
  banned: [
    {
      why: 'it is also said of glue and of saw teeth',
      words: [
        'schränken',
        'schrank',
        'schränkung',
        'abbinden',
        'abgebunden',
        'setzen',
        'gesetzt',
        'anziehen',
        'angezogen',
      ],
    },
    {
      why: 'it is also said of bevels, where an under bevel that grows closes',
      words: ['auf', 'zu', 'öffnen', 'offen', 'schließen', 'geschlossen', 'aufmachen', 'zumachen'],
    },
    { why: 'it means to stop as well as to keep', words: ['halt', 'halte', 'halten', 'haltet', 'anhalten'] },
    {
      why: 'an order turns round when this word drowns',
      words: ['nicht', 'kein', 'keine', 'keinen', 'nie', 'niemals', 'nein', 'ohne'],
    },
    {
      why: 'it is said all day in a shop, by anyone and for anything',
      words: ['gut', 'so', 'fertig', 'los', 'weiter', 'klar', 'okay', 'ok', 'recht', 'schieben'],
    },
  ],
  spelling,
  measured: MEASURED,
  parts: partsOfNumber,
};

import type { NoticeCode } from '../../../server/core/run/engine/events.ts';

export const NOTICE_WORDS: Readonly<Record<NoticeCode, string>> = {
  'mark-skipped': 'Mark skipped',
  'mark-doubled': 'Mark doubled',
  'mark-behind': 'Mark behind',
  'mark-doubtful': 'Mark doubtful',
  'mark-guessed': 'Mark guessed',
  'too-soon': 'Too soon',
  'call-missed': 'Call missed',
  'pulled-back': 'Pulled back',
  'too-fast': 'Too fast',
  'signal-lost': 'Signal lost',
  'moved-while-stopped': 'Moved while stopped',
  'count-restarted': 'Count restarted',
  'signal-seen': 'Seen',
  'two-feeding': 'Two runs feeding',
  'not-kept': 'Not kept',
  restarted: 'Restarted',
  damaged: 'Record damaged',
};

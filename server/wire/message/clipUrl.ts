/** The address of a clip's WAV; `key` names its words and its voice, so that what stands there never changes. */
export const clipUrl = (key: string): string => `/api/clips/${key}.wav`;
export const keyOfClipUrl = (url: string): string => url.replace(/^\/api\/clips\/|\.wav$/g, '');

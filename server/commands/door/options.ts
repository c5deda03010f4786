/** A command's options as they were given, by name. */
export type Options = Readonly<Record<string, string | boolean | (string | boolean)[] | undefined>>;

import { parseSync } from 'vite';

/** What the rules of the house look at in one file. */
export interface Source {
  /** From the top of the house, with forward slashes. */
  readonly path: string;
  readonly lines: number;
  /** Every module named in it: imports, type imports, re-exports, `import()`, and addresses of modules given to a worker. */
  readonly imports: readonly string[];
  readonly hasDefaultExport: boolean;
  /** What it exports by name; `isType` for an interface, a type or a class. */
  readonly exports: readonly { readonly name: string; readonly isType: boolean }[];
  /** What it takes from others by name, as the other names it; `*` for all of it. */
  readonly takes: readonly { readonly from: string; readonly name: string }[];
  /** Names used that are not members of something else: `Date`, `process`; and `Math.random` as a whole. */
  readonly names: ReadonlySet<string>;
  /** Members that are called, by their last name: `toFixed` of `deg.toFixed(1)`. */
  readonly calls: ReadonlySet<string>;
  /** Every string written out in it, keys among them; without what is put together from parts. */
  readonly strings: ReadonlySet<string>;
  /** Files named in its comments: `fairPickUp.ts`, `saw/handwheel.ts`. */
  readonly filesNamed: ReadonlySet<string>;
  /** Tests that would not run, or would keep others from running, as written: `it.skip`. */
  readonly skips: readonly string[];
}

const FILE_NAME = /(?<![\w./*{-])(?:\w[\w-]*\/)*[\w-]+(?:\.\w+)*\.(?:tsx?|mjs)\b/g;

/** Parses one file with the parser that also builds the pages. Throws on a file that is no TypeScript. */
export function readSource(path: string, text: string): Source {
  const { program, comments, errors } = parseSync(path, text);
  const error = errors[0];
  if (error !== undefined) throw new Error(`${path}: ${error.message}`);
  const found = {
    imports: new Set<string>(),
    names: new Set<string>(),
    strings: new Set<string>(),
    calls: new Set<string>(),
    skips: [] as string[],
    hasDefaultExport: false,
    exports: [] as { name: string; isType: boolean }[],
    takes: [] as { from: string; name: string }[],
  };
  for (const node of nodesIn(program as unknown as Node)) {
    const named = moduleNamed(node);
    if (named !== undefined) found.imports.add(named);
    const name = nameUsed(node);
    if (name !== undefined) found.names.add(name);
    const call = memberCalled(node);
    if (call !== undefined) found.calls.add(call);
    for (const written of stringsOf(node)) found.strings.add(written);
    const skip = skipped(node);
    if (skip !== undefined) found.skips.push(skip);
    if (isDefaultExport(node)) found.hasDefaultExport = true;
    found.exports.push(...exportsOf(node));
    found.takes.push(...takesOf(node));
  }
  const filesNamed = new Set(comments.flatMap(({ value }) => value.match(FILE_NAME) ?? []));
  return { path, lines: text.trimEnd().split('\n').length, ...found, filesNamed, imports: [...found.imports] };
}

type Node = { readonly type: string } & Readonly<Record<string, unknown>>;
const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as { type?: unknown }).type === 'string';

/** Names that stand for a member or a key, and not for something in scope. */
const KEYS_OF: Readonly<Record<string, string>> = {
  MemberExpression: 'property',
  Property: 'key',
  MethodDefinition: 'key',
  PropertyDefinition: 'key',
  TSPropertySignature: 'key',
  TSMethodSignature: 'key',
  TSQualifiedName: 'right',
  ImportSpecifier: 'imported',
  ExportSpecifier: 'exported',
};

function* nodesIn(node: Node): Generator<Node> {
  yield node;
  const key = node.computed === true ? undefined : KEYS_OF[node.type];
  for (const [name, value] of Object.entries(node))
    if (name !== key)
      for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) yield* nodesIn(child);
}

function moduleNamed(node: Node): string | undefined {
  switch (node.type) {
    case 'ImportDeclaration':
    case 'ExportAllDeclaration':
    case 'ExportNamedDeclaration':
    case 'ImportExpression':
    case 'TSImportType':
      return textOf(node.source ?? node.argument);
    case 'NewExpression': {
      if (textOfName(node.callee) !== 'URL') return undefined;
      const address = textOf((node.arguments as readonly unknown[])[0]);
      return address !== undefined && /^\.{1,2}\/.*\.(?:m?ts|mjs)$/.test(address) ? address : undefined;
    }
    default:
      return undefined;
  }
}

/** A key is not walked over by itself. */
function stringsOf(node: Node): string[] {
  const key = node.computed === true ? undefined : KEYS_OF[node.type];
  return [writtenOut(node), key === undefined ? undefined : writtenOut(node[key])].flatMap((text) => text ?? []);
}
function writtenOut(node: unknown): string | undefined {
  if (!isNode(node)) return undefined;
  if (node.type !== 'TemplateLiteral') return textOf(node);
  const [only, ...more] = node.quasis as readonly { readonly value: { readonly cooked: string } }[];
  return more.length === 0 ? only?.value.cooked : undefined;
}

function textOf(node: unknown): string | undefined {
  if (!isNode(node)) return undefined;
  if (node.type === 'TSLiteralType') return textOf(node.literal);
  return node.type === 'Literal' && typeof node.value === 'string' ? node.value : undefined;
}
const textOfName = (node: unknown): string | undefined =>
  isNode(node) && node.type === 'Identifier' ? String(node.name) : undefined;
const memberOf = (node: Node): string | undefined =>
  node.computed === true ? textOf(node.property) : textOfName(node.property);

function nameUsed(node: Node): string | undefined {
  if (node.type === 'Identifier') return String(node.name);
  if (node.type === 'MemberExpression' && textOfName(node.object) === 'Math' && memberOf(node) === 'random')
    return 'Math.random';
  return undefined;
}

/** `a.b(c)`, `a?.b(c)` and `a['b'](c)`. */
const memberCalled = (node: Node): string | undefined =>
  node.type === 'CallExpression' && isNode(node.callee) && node.callee.type === 'MemberExpression'
    ? memberOf(node.callee)
    : undefined;

const TESTS = new Set(['it', 'test', 'describe', 'suite']);
const SKIPS = new Set(['skip', 'only', 'todo', 'skipIf', 'runIf']);

function skipped(node: Node): string | undefined {
  const test = rootOf(node.type === 'CallExpression' ? node.callee : node);
  if (test === undefined || !TESTS.has(test)) return undefined;
  if (node.type === 'MemberExpression') {
    const member = memberOf(node);
    return member !== undefined && SKIPS.has(member) ? `${test}.${member}` : undefined;
  }
  if (node.type !== 'CallExpression') return undefined;
  for (const given of node.arguments as readonly Node[])
    if (given.type === 'ObjectExpression')
      for (const property of given.properties as readonly Node[]) {
        const key = textOfName(property.key) ?? textOf(property.key);
        if (key !== undefined && SKIPS.has(key)) return `${test}({ ${key} })`;
      }
  return undefined;
}

/** `it` of `it.each([...])`, `it.skip.each`, `it`. */
function rootOf(node: unknown): string | undefined {
  if (!isNode(node)) return undefined;
  if (node.type === 'MemberExpression') return rootOf(node.object);
  if (node.type === 'CallExpression') return rootOf(node.callee);
  return textOfName(node);
}

const isDefaultExport = (node: Node): boolean =>
  node.type === 'ExportDefaultDeclaration' ||
  (node.type === 'ExportSpecifier' && (textOfName(node.exported) ?? textOf(node.exported)) === 'default');

const TYPES = new Set(['TSInterfaceDeclaration', 'TSTypeAliasDeclaration', 'ClassDeclaration']);

/** What stands behind `export`: `export const a, b`, `export function c`, `export { d as e }`. */
function exportsOf(node: Node): { name: string; isType: boolean }[] {
  if (node.type !== 'ExportNamedDeclaration') return [];
  const { declaration } = node;
  if (!isNode(declaration))
    return (node.specifiers as readonly Node[]).map(({ exported }) => ({ name: nameOf(exported), isType: false }));
  const isType = TYPES.has(declaration.type);
  if (declaration.type !== 'VariableDeclaration') return [{ name: nameOf(declaration.id), isType }];
  return (declaration.declarations as readonly Node[]).flatMap(({ id }) =>
    patternNames(id).map((name) => ({ name, isType })),
  );
}

function patternNames(pattern: unknown): string[] {
  if (!isNode(pattern)) return [];
  if (pattern.type === 'ObjectPattern')
    return (pattern.properties as readonly Node[]).flatMap(({ value }) => patternNames(value));
  return [nameOf(pattern)];
}

function takesOf(node: Node): { from: string; name: string }[] {
  const from = moduleNamed(node);
  if (from === undefined) return [];
  if (node.type !== 'ImportDeclaration' && node.type !== 'ExportNamedDeclaration') return [{ from, name: '*' }];
  return (node.specifiers as readonly Node[]).map(({ type, imported, local }) => ({
    from,
    name: type === 'ImportNamespaceSpecifier' ? '*' : nameOf(node.type === 'ImportDeclaration' ? imported : local),
  }));
}

const nameOf = (node: unknown): string => textOfName(node) ?? textOf(node) ?? '';

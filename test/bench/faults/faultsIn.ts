/** The small faults that can be put into one file: each a change of a few characters that the compiler lets through. */
import { parseSync } from 'vite';

export interface SmallFault {
  readonly path: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly was: string;
  readonly becomes: string;
}

type Node = { readonly type: string; readonly start: number; readonly end: number } & Readonly<Record<string, unknown>>;
const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as { type?: unknown }).type === 'string';

const OPERATORS: Readonly<Record<string, readonly string[]>> = {
  '<': ['<=', '>'],
  '<=': ['<', '>'],
  '>': ['>=', '<'],
  '>=': ['>', '<'],
  '===': ['!=='],
  '!==': ['==='],
  '+': ['-'],
  '-': ['+'],
  '*': ['/'],
  '/': ['*'],
  '&&': ['||'],
  '||': ['&&'],
};
const TURNED_ROUND: Readonly<Record<string, string>> = {
  min: 'max',
  max: 'min',
  floor: 'ceil',
  ceil: 'floor',
  some: 'every',
  every: 'some',
};

/** In the order of the text. */
export function faultsIn(path: string, text: string): readonly SmallFault[] {
  const { program, errors } = parseSync(path, text);
  if (errors[0] !== undefined) throw new Error(`${path}: ${errors[0].message}`);
  const found: SmallFault[] = [];
  const fault = (from: number, to: number, becomes: string): void => {
    const line = text.slice(0, from).split('\n').length;
    found.push({ path, line, from, to, was: text.slice(from, to), becomes });
  };
  visit(program as unknown as Node, text, fault);
  return found.toSorted((a, b) => a.from - b.from);
}

type Put = (from: number, to: number, becomes: string) => void;

function visit(node: Node, text: string, put: Put): void {
  // Types are gone when the program runs.
  if (/^TS(?!As|NonNull|Satisfies)/.test(node.type) || node.type === 'ImportDeclaration') return;
  operatorFaults(node, text, put);
  valueFaults(node, text, put);
  for (const value of Object.values(node))
    for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) visit(child, text, put);
}

function operatorFaults(node: Node, text: string, put: Put): void {
  if (node.type === 'BinaryExpression' || node.type === 'LogicalExpression') {
    const [left, right] = [node.left as Node, node.right as Node];
    const operator = String(node.operator);
    // The operator stands between the two, maybe beside a comment or a bracket.
    const at = text.indexOf(operator, left.end);
    if (at < 0 || at > right.start || isText(left) || isText(right)) return;
    for (const other of OPERATORS[operator] ?? []) put(at, at + operator.length, other);
  }
  if (node.type === 'UnaryExpression' && (node.operator === '!' || node.operator === '-'))
    put(node.start, node.start + 1, ' ');
  if (node.type === 'MemberExpression' && isNode(node.property)) {
    const { name, start, end } = node.property as Node & { name?: string };
    const other = TURNED_ROUND[String(name)];
    if (other !== undefined) put(start, end, other);
  }
}

/** `+` puts texts together too: that one would find by reading. */
const isText = ({ type, value }: Node): boolean =>
  type === 'TemplateLiteral' || (type === 'Literal' && typeof value === 'string');

function valueFaults(node: Node, text: string, put: Put): void {
  if (node.type === 'ConditionalExpression') {
    const [then, otherwise] = [node.consequent as Node, node.alternate as Node];
    put(
      then.start,
      otherwise.end,
      `${text.slice(otherwise.start, otherwise.end)} : ${text.slice(then.start, then.end)}`,
    );
  }
  if (node.type !== 'Literal') return;
  if (typeof node.value === 'boolean') put(node.start, node.end, String(!node.value));
  if (typeof node.value !== 'number') return;
  put(node.start, node.end, `(${text.slice(node.start, node.end)} + 1)`);
  if (node.value !== 0) put(node.start, node.end, `(${text.slice(node.start, node.end)} * 1.5)`);
}

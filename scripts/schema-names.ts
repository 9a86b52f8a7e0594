/**
 * Turns the schema that Prisma reads from a database (snake_case, relations named by machine) into ours:
 * PascalCase models, camelCase fields, a relation named after its column, its other side after the model that points.
 * The SQL in prisma/migrations is what we write by hand; prisma/schema.prisma is derived from it by this rule.
 */

const pascal = (name: string): string =>
  name.replace(/(^|_)([a-z0-9])/g, (_, __, letter: string) => letter.toUpperCase());
const camel = (name: string): string => name.replace(/_([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());
const plural = (name: string): string =>
  /(s|x|ch)$/.test(name) ? `${name}es` : `${name.replace(/([^aeiou])y$/, '$1ie')}s`;

interface Relation {
  readonly model: string;
  readonly target: string;
  readonly columns: string;
  readonly name: string;
}

const FIELD = /^ {2}(\w+)\s+(Unsupported\("[^"]+"\)|\w+)(\?|\[\])?\s*(.*)$/;

/** Every relation that owns its columns, by the name Prisma gave it. */
function owningRelations(text: string): Relation[] {
  const found: Relation[] = [];
  let model = '';
  for (const line of text.split('\n')) {
    model = /^model (\w+) \{/.exec(line)?.[1] ?? model;
    const fields = /@relation\(.*?fields: \[([^\]]+)\]/.exec(line)?.[1];
    const [, , target] = FIELD.exec(line) ?? [];
    if (fields !== undefined && target !== undefined) {
      found.push({ model, target, columns: fields, name: /@relation\("([^"]+)"/.exec(line)?.[1] ?? '' });
    }
  }
  return found;
}

const sideName = (columns: string): string => camel(columns.split(', ').at(-1)?.replace(/_id$/, '') ?? columns);

function renameField(line: string, model: string, relations: readonly Relation[], models: ReadonlySet<string>): string {
  const match = FIELD.exec(line);
  if (match === null) {
    return line.replace(
      /(@@\w+\(\[)([^\]]+)\]/,
      (_, head: string, columns: string) =>
        `${head}${columns.replace(/\w+/g, (word) => (/^(sort|Desc|Asc|ops|raw)$/.test(word) ? word : camel(word)))}]`,
    );
  }
  const [, name = '', type = '', suffix = '', rest = ''] = match;
  if (!models.has(type)) {
    const renamed = camel(name);
    return `  ${renamed} ${type}${suffix} ${rest}${renamed === name ? '' : ` @map("${name}")`}`;
  }
  const label = /@relation\("([^"]+)"/.exec(rest)?.[1] ?? '';
  const owning = /fields: \[([^\]]+)\]/.exec(rest)?.[1];
  const relation = relations.find((r) =>
    owning !== undefined
      ? r.model === model && r.columns === owning
      : r.name === label && r.model === type && r.target === model,
  );
  if (relation === undefined) throw new Error(`no relation for ${model}.${name}`);
  const ends = [relation.model, relation.target];
  const alone =
    relations.filter((r) => ends.includes(r.model) && ends.includes(r.target) && r.model !== r.target).length === 1 &&
    relation.model !== relation.target;
  const named = alone ? '' : `"${pascal(relation.model)}${pascal(sideName(relation.columns))}"`;
  if (owning !== undefined) {
    const settled = rest
      .replace(/@relation\(("[^"]+", )?/, `@relation(${named === '' ? '' : `${named}, `}`)
      .replace(/fields: \[([^\]]+)\]/, (_, c: string) => `fields: [${camel(c)}]`)
      .replace(/references: \[([^\]]+)\]/, (_, c: string) => `references: [${camel(c)}]`);
    return `  ${sideName(relation.columns)} ${pascal(type)}${suffix} ${settled}`;
  }
  const many = suffix === '[]' ? plural(camel(type)) : camel(type);
  const back = alone ? many : `${many}As${pascal(sideName(relation.columns))}`;
  return `  ${back} ${pascal(type)}${suffix} ${named === '' ? '' : `@relation(${named})`}`;
}

/** @param text a schema as introspection wrote it  @returns the same schema in our names, its fields aligned */
export function renameSchema(text: string): string {
  const relations = owningRelations(text);
  const models = new Set([...text.matchAll(/^model (\w+) \{/gm)].map((m) => m[1] ?? ''));
  let model = '';
  const lines = text
    .split('\n')
    .filter((line) => !line.startsWith('///'))
    .map((line) => {
      const opens = /^model (\w+) \{/.exec(line)?.[1];
      if (opens !== undefined) {
        model = opens;
        return `model ${pascal(opens)} {`;
      }
      if (line === '}' && model !== '') {
        const closing = pascal(model) === model ? '}' : `\n  @@map("${model}")\n}`;
        model = '';
        return closing;
      }
      return model === '' ? line : renameField(line, model, relations, models);
    });
  return align(
    lines
      .join('\n')
      .replace(/\n{3,}/g, '\n\n')
      .replace(/^( {2}@@.*\n)\n(?= {2}@@map)/gm, '$1'),
  );
}

/** Two spaces, then name, type and attributes in columns, block by block. */
function align(text: string): string {
  return text.replace(/(?:^ {2}(?!@@)\w.*\n)+/gm, (block) => {
    const rows = block
      .trimEnd()
      .split('\n')
      .map(
        (line) =>
          /^ {2}(\w+)\s+(Unsupported\("[^"]+"\)\??|[\w[\]?]+|=)\s*(.*)$/.exec(line) ?? [line, line.trim(), '', ''],
      );
    const width = (i: number) => Math.max(...rows.map((row) => row[i]?.length ?? 0));
    const [first, second] = [width(1), width(2)];
    return `${rows.map(([, a = '', b = '', c = '']) => `  ${a.padEnd(first)} ${b.padEnd(second)} ${c}`.trimEnd()).join('\n')}\n`;
  });
}

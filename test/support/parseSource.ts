/**
 * What the rules of the house need to know of one source file, read from its syntax tree and not from its letters:
 * a name in a comment, in a string or after a dot is no use of a global.
 *
 * in   path and text of a TypeScript or JavaScript file
 * out  its imports, the outside names it uses, the members it asks of plain names, and its text constants
 */
import { parseSync } from "vite";

export type SourceFile = { readonly path: string; readonly text: string };

/** `typeOnly`: written `import type …`, so that nothing of it is left when the program runs. */
export type Import = { readonly from: string; readonly typeOnly: boolean };

export type ParsedSource = {
  readonly imports: readonly Import[];
  /** Names used as values that the file neither declares nor imports: globals. */
  readonly globals: ReadonlySet<string>;
  /** Such as `process.env`. */
  readonly members: ReadonlySet<string>;
  /** Strings and templates; what a template fills in stands as "?". */
  readonly texts: readonly string[];
};

/** Throws where the file has a syntax error. */
export function parseSource({ path, text }: SourceFile): ParsedSource {
  const parsed = parseSync(path, text);
  if (parsed.errors.length > 0) throw new Error(`${path}: ${parsed.errors[0]!.message}`);
  const imports: Import[] = [];
  const used = new Set<string>();
  const declared = new Set<string>();
  const members = new Set<string>();
  const texts: string[] = [];

  const visit = (node: Node, parent: Node, role: string): void => {
    if (isNode(node.source) && importing.has(node.type)) {
      const kind = node.importKind ?? node.exportKind;
      imports.push({ from: String(node.source.value), typeOnly: kind === "type" });
    }
    for (const name of namesDeclaredBy(node)) declared.add(name);
    if (node.type === "Identifier" && isValue(parent, role)) used.add(nameOf(node));
    if (node.type === "MemberExpression" && nameOf(node.object) !== "") {
      members.add(`${nameOf(node.object)}.${nameOf(node.property)}`);
    }
    if (node.type === "Literal" && typeof node.value === "string") texts.push(node.value);
    if (node.type === "TemplateLiteral") texts.push(templateText(node));
    for (const [childRole, child] of Object.entries(node)) {
      for (const one of listOf(child)) visit(one, node, childRole);
    }
  };
  for (const statement of parsed.program.body) visit(statement as unknown as Node, { type: "Program" }, "body");
  return { imports, globals: new Set([...used].filter((name) => !declared.has(name))), members, texts };
}

/** A node of the tree, as far as this file looks at it. */
type Node = { readonly type: string; readonly [member: string]: unknown };

const importing = new Set(["ImportDeclaration", "ImportExpression", "ExportNamedDeclaration", "ExportAllDeclaration"]);

function isNode(candidate: unknown): candidate is Node {
  return typeof candidate === "object" && candidate !== null && typeof (candidate as Node).type === "string";
}

function listOf(child: unknown): Node[] {
  return (Array.isArray(child) ? child : [child]).filter(isNode);
}

/** Of a plain name; empty for anything else. */
function nameOf(node: unknown): string {
  return isNode(node) && node.type === "Identifier" ? String(node.name) : "";
}

function namesDeclaredBy(node: Node): string[] {
  switch (node.type) {
    case "ImportSpecifier":
    case "ImportDefaultSpecifier":
    case "ImportNamespaceSpecifier":
      return namesBoundBy(node.local);
    case "VariableDeclarator":
    case "ClassDeclaration":
      return namesBoundBy(node.id);
    case "FunctionDeclaration":
    case "FunctionExpression":
    case "ArrowFunctionExpression":
      return [...namesBoundBy(node.id), ...listOf(node.params).flatMap(namesBoundBy)];
    case "CatchClause":
      return namesBoundBy(node.param);
    default:
      return [];
  }
}

/** `a`, `{ a, b: c }`, `[a, ...b]`, `a = 1`: every name that such a pattern brings in. */
function namesBoundBy(pattern: unknown): string[] {
  if (!isNode(pattern)) return [];
  switch (pattern.type) {
    case "Identifier":
      return [nameOf(pattern)];
    case "ObjectPattern":
      return listOf(pattern.properties).flatMap((property) => namesBoundBy(property.value ?? property.argument));
    case "ArrayPattern":
      return listOf(pattern.elements).flatMap(namesBoundBy);
    case "AssignmentPattern":
      return namesBoundBy(pattern.left);
    case "RestElement":
      return namesBoundBy(pattern.argument);
    default:
      return [];
  }
}

const keyed = new Set(["Property", "PropertyDefinition", "MethodDefinition"]);
const valueInTypes = new Set(["TSAsExpression", "TSNonNullExpression", "TSSatisfiesExpression"]);

/** A plain name in this place of its parent stands for a value: it is no key, no member's name and no type. */
function isValue(parent: Node, role: string): boolean {
  if (parent.type.startsWith("TS")) return valueInTypes.has(parent.type) && role === "expression";
  if (parent.type.endsWith("Specifier")) return false;
  if (parent.type === "MemberExpression") return role === "object" || parent.computed === true;
  return !(keyed.has(parent.type) && role === "key") || parent.computed === true;
}

function templateText(node: Node): string {
  const parts = Array.isArray(node.quasis) ? node.quasis : [];
  return parts.map((part: { readonly value: { readonly raw: string } }) => part.value.raw).join("?");
}

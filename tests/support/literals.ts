import ts from 'typescript'

/**
 * Every number in a statement and in what it uses from its own file, signs left out; for `toBeCloseTo(x, digits)`
 * also the tolerance it stands for, half a unit of the last digit.
 */
export function literalsIn(statement: ts.Node, file: ts.SourceFile): ReadonlySet<number> {
  const declared = declarationsIn(file)
  const numbers = new Set<number>()
  const seen = new Set<ts.Node>()
  const visit = (node: ts.Node): void => {
    if (seen.has(node)) return
    seen.add(node)
    if (ts.isNumericLiteral(node)) numbers.add(Number(node.text))
    if (ts.isCallExpression(node)) addTolerance(node, numbers)
    if (ts.isIdentifier(node)) for (const used of declared.get(node.text) ?? []) visit(used)
    ts.forEachChild(node, visit)
  }
  visit(statement)
  return numbers
}

/** What a file declares, by name; the same name may stand in several scopes. */
function declarationsIn(file: ts.SourceFile): Map<string, ts.Node[]> {
  const declared = new Map<string, ts.Node[]>()
  const visit = (node: ts.Node): void => {
    const isDeclaration = ts.isVariableDeclaration(node) || ts.isFunctionDeclaration(node)
    if (isDeclaration && node.name && ts.isIdentifier(node.name))
      declared.set(node.name.text, [...(declared.get(node.name.text) ?? []), node])
    ts.forEachChild(node, visit)
  }
  visit(file)
  return declared
}

function addTolerance({ expression, arguments: given }: ts.CallExpression, numbers: Set<number>): void {
  if (!ts.isPropertyAccessExpression(expression) || expression.name.text !== 'toBeCloseTo') return
  const [, digits] = given
  if (digits && ts.isNumericLiteral(digits)) numbers.add(0.5 * 10 ** -Number(digits.text))
}

// The editor's commands may ask a language for indents and brackets. Plain text with a list of inks has
// none, and needs no parser on the page: web/build puts this in the place of @codemirror/language.
const unit = "  ";
export const getIndentUnit = () => unit.length;
export const indentUnit = unit;
export const indentString = (_: unknown, columns: number) => " ".repeat(columns);
export const getIndentation = () => null;
export const matchBrackets = () => null;
export const syntaxTree = () => null;
export class IndentContext {}

// Package formulatest asks formulas as the command does, for the tests of the
// packages that declare them.
//
// Main entry: Ask. In: formulas and a line as it is typed, the name first. Out:
// the answer's numbers by JSON key, SI, or the formula's own refusal. What
// cannot be read fails the test. It knows no formula by name.
package formulatest

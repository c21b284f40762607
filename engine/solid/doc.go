// Package solid knows how lines grow with temperature and what room they need:
// growth between fixed points, the leg, offset or loop that takes it up, what a
// corner takes by itself, and the stress and push where nothing does.
//
// Main type: Material. In: expansion coefficient, modulus, stress allowed,
// lengths. Out: lengths, stresses, forces in N; [Formulas] to ask them alone.
//
// Sources: the expansion formulas of the Copper Tube Handbook and of plastic
// pipe manuals.
//
// It holds no material's figures (they are arguments; the catalogue owns
// them), and knows no support spacing, which is a table per stock and code.
package solid

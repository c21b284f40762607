// Package parts is the take-off: everything on the drawing, counted from its
// geometry, nothing typed twice and nothing left out; cut, joined and numbered.
//
// [Of] takes a job and the catalogue that it is read by and gives an [Answer]: a
// [Line] for each article drawn and for what joining implies (couplings, adapters,
// supplies, labels), a [Piece] for each length of pipe with its take-outs and bends,
// a [Joint] for each connection. It closes both ways: lengths add up, and each thing
// finds its lines. What stands, is planned and is for later are apart.
//
// Sources: the job's geometry and the catalogue; what is not known is told and taken
// as zero. It does not lay pieces into sticks, choose packs, add spares or set clips.
package parts

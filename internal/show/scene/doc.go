// Package scene holds a drawing as data, between those who know the shop and
// those who paint.
//
// Main type: Scene, layers of lines, areas, arcs, texts and marks, each with the
// id of the thing it shows. In: geometry in metres, text and strokes in paper
// millimetres, colours as roles. Out: the same as JSON for the page (package
// encoding/json does it), as SVG (WriteSVG), as pages of a PDF or one page as SVG
// (Leaf, WritePDF, WriteLeafSVG), as DXF in true size (WriteDXF), and as the Patch
// that makes it of an earlier one (Diff, Apply). It also says how wide a text will be,
// so that whoever places labels can keep them apart.
// Sources: none; SVG 1.1, PDF and DXF of release 12 for the written forms. It knows no jobs, no pressures
// and no themes beyond the names of the colour roles.
package scene

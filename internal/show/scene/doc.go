// Package scene holds a drawing as data, between those who know the shop and
// those who paint.
//
// Main type: Scene, layers of lines, areas, arcs, texts and marks, each with the
// id of the thing it shows. In: geometry in metres, text and strokes in paper
// millimetres, colours as roles. Out: the same as JSON for the page (package
// encoding/json does it), as an SVG document (WriteSVG), and as the Patch that
// makes it of an earlier one (Diff, Apply). It also says how wide a text will be,
// so that whoever places labels can keep them apart.
// Sources: none; SVG 1.1 for the written form. It knows no jobs, no pressures
// and no themes beyond the names of the colour roles.
package scene

// Package sheet is a job on paper: drawings to work from, lists, labels, and all of it as a
// job book.
//
// Main type: Maker, which makes the sheets that All lists, one to a file of this package. In:
// a shop as the page shows it, the paper, and what stands in the title block. Out: documents
// of package page, drawings as DXF, and the files of a whole book. Sources: ASME A13.1 for
// labels (testdata/ref/piping/labels.csv), ISO/IEC 18004 for the margin of QR codes, ISO
// 1219-1 and 1219-2 for the flow diagram; the usual manner of piping drawings. It works
// nothing out: figures come from the study, words that the page has too from package screen.
package sheet

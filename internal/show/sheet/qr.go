package sheet

import (
	"fmt"
	"strings"

	"dropleg/internal/show/scene"

	"github.com/boombuler/barcode/qr"
)

// Quiet is the light margin about a QR code that readers need (ISO/IEC 18004).
const Quiet = 4

// QR is the code of a text as dark squares, margin included, with a quarter of the squares to
// spare for scratches and dirt.
func QR(text string) ([][]bool, error) {
	b, err := qr.Encode(text, qr.Q, qr.Auto)
	if err != nil {
		return nil, fmt.Errorf("making a QR code: %w", err)
	}
	size := b.Bounds().Dx()
	c := make([][]bool, size+2*Quiet)
	for y := range c {
		c[y] = make([]bool, size+2*Quiet)
		for x := range size {
			if y >= Quiet && y < size+Quiet {
				r, _, _, _ := b.At(x, y-Quiet).RGBA()
				c[y][x+Quiet] = r == 0
			}
		}
	}
	return c, nil
}

// squares draws a code in mm with its margin, its lower left corner at a place, so wide: each row
// of dark squares beside each other is a stroke as thick as a square.
func squares(code [][]bool, x, y, wide float64) scene.Path {
	var b strings.Builder
	cell := wide / float64(len(code))
	for row := range code {
		for from := 0; from < len(code); from++ {
			to := from
			for to < len(code) && code[row][to] {
				to++
			}
			if to > from {
				fmt.Fprintf(&b, "M%.3f %.3fH%.3f", x+float64(from)*cell, y+wide-(float64(row)+0.5)*cell, x+float64(to)*cell)
				from = to
			}
		}
	}
	return scene.Path{D: b.String(), Stroke: &scene.Stroke{Width: cell, Color: "ink"}}
}

package sheet

import (
	"fmt"
	"strconv"

	"dropleg/engine/num/qr"
	"dropleg/internal/show/scene"
)

// Quiet is the light margin about a QR code that readers need (ISO/IEC 18004).
const Quiet = 4

// QR is the code of a text as dark squares, margin included.
func QR(text string) ([][]bool, error) {
	squares, err := qr.Encode(text)
	if err != nil {
		return nil, fmt.Errorf("making a QR code: %w", err)
	}
	out := make([][]bool, len(squares)+2*Quiet)
	for y := range out {
		out[y] = make([]bool, len(out))
		if row := y - Quiet; row >= 0 && row < len(squares) {
			copy(out[y][Quiet:], squares[row])
		}
	}
	return out, nil
}

// squares draws a code in mm with its margin, its lower left corner at a place, so wide: each row
// of dark squares beside each other is a stroke as thick as a square.
func squares(code [][]bool, x, y, wide float64) scene.Path {
	var d []byte
	put := func(letter byte, mm float64) { d = strconv.AppendFloat(append(d, letter), mm, 'f', 3, 64) }
	cell := wide / float64(len(code))
	for row := range code {
		for from := 0; from < len(code); from++ {
			to := from
			for to < len(code) && code[row][to] {
				to++
			}
			if to > from {
				put('M', x+float64(from)*cell)
				put(' ', y+wide-(float64(row)+0.5)*cell)
				put('H', x+float64(to)*cell)
				from = to
			}
		}
	}
	return scene.Path{D: string(d), Stroke: &scene.Stroke{Width: cell, Color: "ink"}}
}

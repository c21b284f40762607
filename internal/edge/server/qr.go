package server

import (
	"fmt"
	"strings"

	paper "dropleg/internal/show/sheet"
)

// code is a QR code as dark and light squares, margin included.
type code [][]bool

// newQR makes the code of a text.
func newQR(text string) (code, error) { return paper.QR(text) }

// svg is the code as a picture that scales: dark on light in both themes, as
// readers want it.
func (c code) svg() string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h%dv%dH0z"/><path fill="#000" d="`, len(c), len(c), len(c), len(c))
	for y, row := range c {
		for x, dark := range row {
			if dark {
				fmt.Fprintf(&b, "M%d %dh1v1h-1z", x, y)
			}
		}
	}
	b.WriteString(`"/></svg>`)
	return b.String()
}

// blocks is the code for a terminal, two rows of squares to a line of text: light
// squares are set, as most terminals write light on dark and readers of codes take
// the other way round as well.
func (c code) blocks() string {
	var b strings.Builder
	for y := 0; y < len(c); y += 2 {
		for x := range c[y] {
			upper, lower := !c[y][x], y+1 >= len(c) || !c[y+1][x]
			switch {
			case upper && lower:
				b.WriteRune('█')
			case upper:
				b.WriteRune('▀')
			case lower:
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

package scene

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The faces that go into PDF: Latin, Greek and Cyrillic (WGL4), free to embed.
var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{read(goregular.TTF), read(gobold.TTF)}
})

// face knows the widths of its signs in thousandths of the size; signs that it lacks are
// not there.
type face struct{ wide map[rune]float64 }

// widest is the last rune that is looked for in a face.
const widest = 0x2fff

func read(ttf []byte) *face {
	f := &face{map[rune]float64{}}
	parsed, err := sfnt.Parse(ttf)
	if err != nil {
		return f
	}
	var b sfnt.Buffer
	for r := rune(' '); r < widest; r++ {
		g, err := parsed.GlyphIndex(&b, r)
		if err != nil || g == 0 {
			continue
		}
		if wide, err := parsed.GlyphAdvance(&b, g, fixed.I(1000), font.HintingNone); err == nil {
			f.wide[r] = float64(wide) / 64
		}
	}
	return f
}

func faceOf(bold bool) *face {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// PrintWidth is the width in mm of a text set at size mm in the face that PDF has.
func PrintWidth(text string, size float64, bold bool) float64 {
	f := faceOf(bold)
	sum := 0.0
	for _, r := range Printable(text) {
		sum += f.wide[r]
	}
	return sum * size / 1000
}

// missing stands for a sign that no face has.
const missing = '□'

// Printable is a text as it can be set: a sign that the faces lack is an empty box, and
// line ends and other controls are spaces.
func Printable(text string) string {
	regular, bold := faces()[0], faces()[1]
	out := []rune(text)
	for i, r := range out {
		_, has := regular.wide[r]
		_, both := bold.wide[r]
		switch {
		case has && both:
		case r < ' ' || r == 0x7f:
			out[i] = ' '
		default:
			out[i] = missing
		}
	}
	return string(out)
}

// Unset counts the signs of a text that the faces lack.
func Unset(text string) int {
	n := 0
	for _, r := range text {
		if _, has := faces()[0].wide[r]; !has && r >= ' ' && r != 0x7f {
			n++
		}
	}
	return n
}

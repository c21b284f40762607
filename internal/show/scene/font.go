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
type face struct {
	wide  map[rune]float64
	ascii [0x7f]float64 // the same of ASCII, found faster
}

// widest is the last rune that is looked for in a face.
const widest = 0x2fff

func read(ttf []byte) *face {
	f := &face{wide: map[rune]float64{}}
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
			if r < rune(len(f.ascii)) {
				f.ascii[r] = f.wide[r]
			}
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
		if r < rune(len(f.ascii)) {
			sum += f.ascii[r]
		} else {
			sum += f.wide[r]
		}
	}
	return sum * size / 1000
}

// missing stands for a sign that no face has.
const missing = '□'

// Printable is a text as it can be set: a sign that the faces lack is an empty box, and
// line ends and other controls are spaces.
func Printable(text string) string {
	if plain(text) {
		return text
	}
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

// plain says whether a text has signs of ASCII alone, which both faces have; most texts do, and
// each is measured many times.
func plain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] >= 0x7f {
			return false
		}
	}
	return true
}

// Unset counts the signs of a text that the faces lack.
func Unset(text string) int {
	if plain(text) {
		return 0
	}
	n := 0
	for _, r := range text {
		if _, has := faces()[0].wide[r]; !has && r >= ' ' && r != 0x7f {
			n++
		}
	}
	return n
}

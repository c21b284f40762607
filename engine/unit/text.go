package unit

import "strings"

// plainer rewrites typographic signs as the plain ones that the parser knows.
var plainer = strings.NewReplacer(
	"′", "'", "’", "'", "‘", "'", "″", `"`, "”", `"`, "“", `"`, "''", `"`,
	"²", "2", "³", "3", "·", ".", "⋅", ".", "×", "*", "µ", "u", "μ", "u",
	"º", "°", "−", "-", "–", "-", "⁄", "/", "\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
)

// What fold replaces: making a replacer costs more than using it.
var (
	signs    = strings.NewReplacer("°", "deg", "^", "", "*", ".")
	brackets = strings.NewReplacer("(", " ", ")", " ")
	dots     = strings.NewReplacer("./", "/", "/.", "/", "deg.", "deg")
)

// clean makes text plain and trims it.
func clean(text string) string {
	return strings.TrimSpace(plainer.Replace(text))
}

// fold brings a unit or a marker to the one spelling under which it is looked
// up: lower case, blanks and hyphens between words as one dot, no exponent
// sign, no brackets. Blanks stay visible as dots, so that "5 m m" is not 5 mm.
func fold(s string) string {
	s = strings.ToLower(clean(s))
	s = strings.TrimSuffix(s, ".")
	s = signs.Replace(s)
	if strings.Count(s, "(") == strings.Count(s, ")") && !strings.Contains(s, "()") {
		s = brackets.Replace(s)
	}
	s = strings.ReplaceAll(s, "-", " ")
	s = strings.ReplaceAll(s, ".", " ")
	s = strings.Join(strings.Fields(s), ".")
	return dots.Replace(s)
}

// distance counts the letters to change, insert, drop or swap with their
// neighbour on the way from a to b (optimal string alignment, in bytes).
func distance(a, b string) int {
	// Beyond the length of any word in use only "far" matters.
	const longest = 60
	if len(a) > longest {
		a = a[:longest]
	}
	var before []int // the row two above
	above := make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := range len(a) {
		row := make([]int, len(b)+1)
		row[0] = i + 1
		for j := range len(b) {
			row[j+1] = min(above[j]+boolInt(a[i] != b[j]), above[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, above = above, row
	}
	return above[len(b)]
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

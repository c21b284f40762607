package intake

import (
	"maps"
	"slices"
	"strings"
)

// said are the trade's other words for a thing, in the languages of counters, each with
// ours: common practice, no source.
var said = map[string]string{
	"pipe": "tube", "tubing": "tube", "rohr": "tube", "cu": "copper", "kupferrohr": "copper tube", "kupfer": "copper", "cuivre": "copper",
	"ell": "elbow", "elbows": "elbow", "winkel": "elbow", "bogen": "elbow", "coude": "elbow", "90": "90", "l-stück": "elbow",
	"tees": "tee", "t-stück": "tee", "stück": "", "té": "tee", "reducing": "", "reduced": "", "equal": "",
	"valves": "valve", "kugelhahn": "ball valve", "ventil": "valve", "hahn": "valve", "vanne": "valve",
	"muffe": "coupling", "coupler": "coupler", "couplers": "coupler", "kupplung": "coupler", "stecker": "plug", "nipple": "plug", "manchon": "coupling",
	"schlauch": "hose", "tuyau": "hose", "hoses": "hose", "kappe": "cap", "bouchon": "cap",
	"schelle": "clip", "rohrschelle": "clip", "clips": "clip", "clamp": "clip", "collier": "clip", "strap": "clip",
	"lot": "solder", "lötzinn": "solder", "flussmittel": "flux", "teflon": "thread tape", "ptfe": "thread tape", "gewindeband": "thread tape",
	"filter": "filter", "druckregler": "regulator", "regler": "regulator", "verschraubung": "union", "unions": "union",
	"innengewinde": "female", "aussengewinde": "male", "außengewinde": "male", "fem": "female", "fip": "female", "mip": "male", "ig": "female", "ag": "male",
	"stainless": "stainless", "ss": "stainless", "edelstahl": "stainless", "inox": "stainless", "alu": "aluminium", "aluminum": "aluminium",
	"in": "", "inch": "", "zoll": "", "mm": "", "the": "", "a": "", "of": "", "for": "", "with": "", "and": "", "x": "", "to": "", "type": "", "typ": "",
}

// vulgar are fractions in one character.
var vulgar = strings.NewReplacer("¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅜", " 3/8", "⅛", " 1/8", "⅝", " 5/8", "″", "\"", "”", "\"", "×", " x ")

// grams are the words and sizes of a text, folded, each once, in alphabetical order, so
// that 1 1/4", 1-1/4 in and 22 mm are one way of writing a size each.
func grams(text string) []string {
	text = strings.ToLower(vulgar.Replace(text))
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\",;:()[]_+*'", r) })
	seen := map[string]bool{}
	for i := 0; i < len(fields); i++ {
		w := strings.Trim(fields[i], ".-/")
		if isWhole(w) && i+1 < len(fields) && isFraction(fields[i+1]) {
			w += "-" + fields[i+1]
			i++
		}
		for _, part := range sizes(w) {
			for _, one := range strings.Fields(ours(part)) {
				seen[one] = true
			}
		}
	}
	delete(seen, "")
	return slices.Sorted(maps.Keys(seen))
}

// ours is our word for a word.
func ours(word string) string {
	if other, ok := said[word]; ok {
		return other
	}
	return word
}

// sizes parts what belongs to a size from its unit and from other sizes: 22mm, 15x1, and
// the key ball-valve into its words.
func sizes(w string) []string {
	if w == "" {
		return nil
	}
	if w[0] >= '0' && w[0] <= '9' {
		for _, u := range []string{"mm", "in", "zoll"} {
			w = strings.TrimSuffix(w, u)
		}
		if a, b, ok := strings.Cut(w, "x"); ok && a != "" && b != "" {
			return append(sizes(a), sizes(b)...)
		}
		return []string{strings.TrimSuffix(strings.ReplaceAll(w, ",", "."), ".0")}
	}
	if _, whole := said[w]; whole {
		return []string{w}
	}
	return strings.FieldsFunc(w, func(r rune) bool { return r == '-' || r == '/' })
}

func isWhole(w string) bool { return w != "" && strings.Trim(w, "0123456789") == "" && len(w) < 3 }

func isFraction(w string) bool {
	a, b, ok := strings.Cut(w, "/")
	return ok && isWhole(a) && isWhole(b)
}

package intake

import (
	"slices"
	"strings"

	"dropleg/engine/unit"
)

// basis is what a price is for.
type basis int

const (
	whole   basis = iota // what the row holds: its pack, its length
	byPiece              // so many pieces
	byMetre              // so many metres
)

// per is a price's unit: 100 pieces, 0.3048 m.
type per struct {
	basis basis
	each  float64
}

// The words of units, as counters write them: common practice, no source.
var (
	pieceWords  = []string{"ea", "each", "pc", "pcs", "pce", "piece", "pieces", "unit", "st", "stk", "stck", "stück", "stücke", "pièce", "pieza", "pezzo", "stuk", "u", "no", "nr", "item"}
	tenWords    = []string{"10", "ten", "per 10", "10 pcs", "10 st"}
	centWords   = []string{"c", "100", "hundred", "per 100", "100 pcs", "100 st", "100 stk", "%", "cent"}
	milleWords  = []string{"1000", "thousand", "per 1000", "mille", "1000 pcs", "1000 st", "1000 stk"}
	packWords   = []string{"pack", "pk", "pkt", "packet", "package", "box", "bx", "bag", "set", "kit", "card", "case", "ve", "vpe", "packung", "pak", "paket", "beutel", "karton", "tin", "can", "tube", "bottle"}
	lengthWords = []string{"length", "lgth", "lg", "stick", "bar", "joint", "coil", "roll", "reel", "len", "stange", "ring", "rolle", "länge", "barre", "rouleau", "couronne"}
)

// metreWords are units of length, and what each is in metres.
var metreWords = map[string]float64{
	"m": 1, "mtr": 1, "metre": 1, "meter": 1, "metres": 1, "meters": 1, "lm": 1, "lfm": 1, "lfdm": 1, "mètre": 1, "ml": 1, "metro": 1,
	"mm": 0.001, "cm": 0.01, "ft": 0.3048, "foot": 0.3048, "feet": 0.3048, "lf": 0.3048, "in": 0.0254, "inch": 0.0254, "100 m": 100, "100 ft": 30.48, "cft": 30.48,
}

// readPer reads what a price is for; ok is false for an unknown word.
func readPer(text string) (per, bool) {
	word := strings.TrimPrefix(plain(text), "per ")
	if word == "" && strings.TrimSpace(text) != "%" {
		return per{}, text == ""
	}
	switch {
	case slices.Contains(pieceWords, word), word == "1":
		return per{byPiece, 1}, true
	case slices.Contains(tenWords, word):
		return per{byPiece, 10}, true
	case slices.Contains(centWords, word), strings.TrimSpace(text) == "%":
		return per{byPiece, 100}, true
	case slices.Contains(milleWords, word):
		return per{byPiece, 1000}, true
	case slices.Contains(packWords, word), slices.Contains(lengthWords, word):
		return per{}, true
	}
	if f, ok := metreWords[strings.TrimPrefix(word, "1 ")]; ok {
		return per{byMetre, f}, true
	}
	return per{}, false
}

// oneLength reads "6" and "m length": what a stick or coil is long, in its unit, and what
// that is in metres.
func oneLength(figure, word string) (long, metres float64, ok bool) {
	unit, what, _ := strings.Cut(word, " ")
	f, known := metreWords[unit]
	r, err := readNumber(figure, Seen)
	if err != nil || !known || !slices.Contains(lengthWords, strings.TrimSuffix(what, "s")) || !(r.value > 0 && r.value*f <= 1000) {
		return 0, 0, false
	}
	return r.value, f, true
}

// nearestPer is the unit nearest to a word that is none.
func nearestPer(text string) []string {
	all := slices.Concat(pieceWords, centWords, packWords, lengthWords)
	for word := range metreWords {
		all = append(all, word)
	}
	slices.Sort(all)
	if near := unit.Nearest(plain(text), all); near != "" {
		return []string{near}
	}
	return []string{"piece", "100", "m", "ft", "pack", "length"}
}

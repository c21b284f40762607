package catalog

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/unit"
)

// Size finds a size by its name or another name of it, as people type it:
// "3/4", "3/4in", "3/4\"", "0.75 in", "1 1/4", "22 mm", "DN20". A unit that the
// stock is not sold in finds nothing.
func (s Stock) Size(name string) (Size, bool) {
	word, read := bare(name), unitOf(name)
	for _, z := range s.Sizes {
		if z.Size == word && fits(z.Size, read) || slices.Contains(z.Also, strings.TrimSpace(name)) {
			return z, true
		}
	}
	for _, z := range s.Sizes {
		for _, other := range z.Also {
			if strings.EqualFold(bare(other), word) && fits(other, read) {
				return z, true
			}
		}
	}
	value, ok := inches(word)
	if !ok {
		return Size{}, false
	}
	for _, z := range s.Sizes {
		if own, ok := inches(z.Size); ok && math.Abs(own-value) < 1e-9 && fits(z.Size, read) {
			return z, true
		}
	}
	return Size{}, false
}

// Names lists the sizes of the stock in the order of the shelf.
func (s Stock) Names() []string {
	names := make([]string, len(s.Sizes))
	for i, z := range s.Sizes {
		names[i] = z.Size
	}
	return names
}

// Nearest is the size nearest to a word that is none; "" if none is near.
func (s Stock) Nearest(word string) string { return unit.Nearest(bare(word), s.Names()) }

// Metric says whether the sizes are millimetres of outside diameter.
func (s Stock) Metric() bool { return len(s.Sizes) > 0 && metric(s.Sizes[0].Size) }

// LeastRadius is the least bend radius of a size, to the centre line; 0 where
// the stock is not bent or no figure is known.
func (s Stock) LeastRadius(z Size) unit.Length {
	if z.Radius == 0 && s.SweepRadius != nil {
		return unit.Length(*s.SweepRadius) * z.Outside
	}
	return z.Radius
}

// Spaced is the greatest distance between supports in a direction, "horizontal"
// or "vertical"; where only the horizontal is known it holds for both.
func (z Size) Spaced(direction string) (Spacing, bool) {
	for _, want := range []string{direction, "horizontal"} {
		for _, row := range z.Spacing {
			if row.Direction == want {
				return row, true
			}
		}
	}
	return Spacing{}, false
}

// bare is a size without its unit: "3/4 in" is "3/4", "1 1/4" is "1-1/4", "16 x 2.0" is "16x2".
func bare(size string) string {
	w := strings.ToLower(strings.TrimSpace(size))
	for _, u := range []string{"inches", "inch", "in.", "in", "mm", "\"", "″", "”"} {
		if cut, ok := strings.CutSuffix(w, u); ok {
			w = strings.TrimSpace(cut)
			break
		}
	}
	if a, b, ok := strings.Cut(w, "x"); ok {
		return strings.TrimSuffix(strings.TrimSpace(a), ".0") + "x" + strings.TrimSuffix(strings.TrimSpace(b), ".0")
	}
	return strings.Join(strings.Fields(w), "-")
}

// unitOf is the unit that a typed size states: "in", "mm" or "".
func unitOf(size string) string {
	w := strings.ToLower(strings.TrimSpace(size))
	switch {
	case strings.HasSuffix(w, "mm"):
		return "mm"
	case strings.HasSuffix(w, "in"), strings.HasSuffix(w, "in."), strings.HasSuffix(w, "inch"),
		strings.HasSuffix(w, "inches"), strings.HasSuffix(w, "\""), strings.HasSuffix(w, "″"), strings.HasSuffix(w, "”"):
		return "in"
	}
	return ""
}

// fits says whether a size of the shelf can be meant by a word with that unit.
func fits(size, read string) bool { return read == "" || metric(size) == (read == "mm") }

// metric tells sizes of outside diameter in millimetres (6 and more, or a pair)
// from nominal sizes in inches (to 4).
func metric(size string) bool {
	value, ok := inches(size)
	return !ok || value > 4
}

// inches reads "3/4", "1-1/4" and "0.75" as a number.
func inches(size string) (float64, bool) {
	whole, part, two := strings.Cut(size, "-")
	if !two && strings.Contains(whole, "/") {
		whole, part = "0", whole
	}
	value, err := strconv.ParseFloat(whole, 64)
	if err != nil || math.IsInf(value, 0) || math.IsNaN(value) {
		return 0, false
	}
	if part == "" {
		return value, !two
	}
	a, b, ok := strings.Cut(part, "/")
	over, err1 := strconv.ParseFloat(a, 64)
	under, err2 := strconv.ParseFloat(b, 64)
	if !ok || err1 != nil || err2 != nil || !(under > 0) || !(over >= 0) || math.IsInf(over/under, 0) {
		return 0, false
	}
	return value + over/under, true
}

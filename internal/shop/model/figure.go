package model

import "dropleg/internal/shop/catalog"

// figure is a number with its plausible range, already turned so that Best
// gives the higher pressures at the tools.
type figure struct{ likely, best, worst float64 }

// sure is a figure without a range.
func sure(x float64) figure { return figure{x, x, x} }

// moreIsBetter takes a span of which high is the kinder end: conductance, bore.
func moreIsBetter(s catalog.Span) figure { return spanned(s.Value, s.High, s.Low) }

// lessIsBetter takes a span of which low is the kinder end: roughness, flow taken.
func lessIsBetter(s catalog.Span) figure { return spanned(s.Value, s.Low, s.High) }

// spanned fills ends that a row leaves out with the likely value.
func spanned(likely, best, worst float64) figure {
	f := figure{likely, best, worst}
	if f.best == 0 {
		f.best = likely
	}
	if f.worst == 0 {
		f.worst = likely
	}
	return f
}

// at picks the figure for a bias.
func (f figure) at(b Bias) float64 {
	switch b {
	case Best:
		return f.best
	case Worst:
		return f.worst
	default:
		return f.likely
	}
}

// each applies a function to the three.
func (f figure) each(g func(float64) float64) figure {
	return figure{g(f.likely), g(f.best), g(f.worst)}
}

// with joins two figures, end by end.
func (f figure) with(h figure, g func(a, b float64) float64) figure {
	return figure{g(f.likely, h.likely), g(f.best, h.best), g(f.worst, h.worst)}
}

func add(a, b float64) float64   { return a + b }
func times(a, b float64) float64 { return a * b }

// isZero says whether nothing is there at any bias.
func (f figure) isZero() bool { return f == figure{} }

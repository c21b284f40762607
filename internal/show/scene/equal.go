package scene

import "slices"

// equal compares two items by all that is painted or read of them. Written out,
// because it runs over whole drawings after every step.
func equal(a, b Item) bool {
	return a.ID == b.ID && a.Title == b.Title &&
		both(a.Line, b.Line, equalLines) && both(a.Area, b.Area, equalAreas) && both(a.Arc, b.Arc, equalArcs) &&
		both(a.Text, b.Text, func(a, b *Text) bool { return *a == *b }) && both(a.Mark, b.Mark, equalMarks)
}

// both says whether two values are there and equal, or both are not there.
func both[T any](a, b *T, equal func(a, b *T) bool) bool {
	return a == b || a != nil && b != nil && equal(a, b)
}

func equalStrokes(a, b *Stroke) bool {
	return a.Width == b.Width && a.Color == b.Color && a.Round == b.Round && slices.Equal(a.Dash, b.Dash)
}

func equalLines(a, b *Line) bool {
	return equalStrokes(&a.Stroke, &b.Stroke) && slices.Equal(a.Points, b.Points)
}

func equalAreas(a, b *Area) bool {
	return a.Fill == b.Fill && a.Hatch == b.Hatch && slices.Equal(a.Points, b.Points) && both(a.Stroke, b.Stroke, equalStrokes)
}

func equalArcs(a, b *Arc) bool {
	return a.Centre == b.Centre && a.Radius == b.Radius && a.From == b.From && a.To == b.To && equalStrokes(&a.Stroke, &b.Stroke)
}

func equalMarks(a, b *Mark) bool {
	return a.At == b.At && a.Turn == b.Turn && slices.EqualFunc(a.Parts, b.Parts, func(a, b Path) bool {
		return a.D == b.D && a.Fill == b.Fill && both(a.Stroke, b.Stroke, equalStrokes)
	})
}

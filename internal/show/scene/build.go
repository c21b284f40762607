package scene

import "unicode"

// Roles lists the colour roles that a theme fills in, in a fixed order.
func Roles() []string {
	return []string{
		"ink", "soft", "faint", "wall", "floor", "thing", "line", "accent", "alarm", "good", "paper", "marker",
		"ramp-0", "ramp-1", "ramp-2", "ramp-3", "ramp-4", "ramp-5",
	}
}

// Solid is an unbroken stroke of width mm in a colour role.
func Solid(width float64, color string) Stroke { return Stroke{Width: width, Color: color} }

// Polyline is an item with an open line.
func Polyline(id, title string, s Stroke, at ...Point) Item {
	return Item{ID: id, Title: title, Line: &Line{Points: at, Stroke: s}}
}

// Words is an item with a text of size mm, shifted by offset mm from its place.
func Words(id, text string, at, offset Point, size float64, anchor, color string) Item {
	return Item{ID: id, Text: &Text{
		At: at, Offset: offset, Size: size, Text: text, Anchor: anchor, Color: color,
	}}
}

// TextWidth estimates the width in mm of a text set at size mm. It leans to the
// wide side of common sans-serif faces, because a label that has a little too
// much room is read and one that has too little is not.
func TextWidth(text string, size float64, bold bool) float64 {
	em := 0.0
	for _, r := range text {
		switch {
		case unicode.IsDigit(r):
			em += 0.62
		case r == ' ' || r == '.' || r == ',' || r == 'i' || r == 'l' || r == 'j' || r == 't' || r == 'f' || r == '/' || r == ':':
			em += 0.36
		case r == 'm' || r == 'w' || r == 'M' || r == 'W' || r == '×':
			em += 0.92
		case unicode.IsUpper(r):
			em += 0.70
		default:
			em += 0.58
		}
	}
	if bold {
		em *= 1.08
	}
	return em * size
}

// Grow widens the extent of the scene so that it holds p.
func (s *Scene) Grow(p Point) {
	for i := range 2 {
		s.Min[i] = min(s.Min[i], p[i])
		s.Max[i] = max(s.Max[i], p[i])
	}
}

// Fill makes empty lists of lists that are not there: JSON then says [], not null.
func (s *Scene) Fill() {
	if s.Layers == nil {
		s.Layers = []Layer{}
	}
	for i := range s.Layers {
		if s.Layers[i].Items == nil {
			s.Layers[i].Items = []Item{}
		}
	}
}

package scene

// places says whether an item has a place: all its coordinates are numbers. What has none is
// not written.
func (it *Item) places() bool {
	var all []Point
	switch {
	case it.Line != nil:
		all = it.Line.Points
	case it.Area != nil:
		all = it.Area.Points
	case it.Arc != nil:
		all = []Point{it.Arc.Centre, {it.Arc.Radius, 0}, {it.Arc.From, it.Arc.To}}
	case it.Text != nil:
		all = []Point{it.Text.At, it.Text.Offset, {it.Text.Size, it.Text.Turn}}
	case it.Mark != nil:
		all = []Point{it.Mark.At, {it.Mark.Turn, 0}}
	}
	for _, p := range all {
		// What is infinite or not a number gives no 0 here.
		if p[0]-p[0] != 0 || p[1]-p[1] != 0 {
			return false
		}
	}
	return true
}

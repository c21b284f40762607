package calibrate

import (
	"encoding/json"
	"strconv"

	"dropleg/internal/shop/job"
)

// propose makes the edit that takes over what the readings tell.
func (a *Answer) propose(b *bench, f *fit) {
	var edits []job.Edit
	for _, k := range f.free {
		g, v := &b.figures[k], a.Figures[k].Value
		switch g.what {
		case Roughness:
			for _, id := range g.ids {
				edits = append(edits, &job.Change{ID: id, Key: "roughness_mm", Value: figureText(v * 1e3)})
			}
		case Filter:
			key := "found_kPa"
			if g.outlet == "" {
				key = "part." + key
			}
			edits = append(edits, &job.Change{ID: g.ids[0], Key: key, Value: figureText(v / 1e3)})
		case Leak:
			edits = append(edits, &job.Change{Key: "rules.leak", Value: figureText(min(v, mostLeak))})
		}
	}
	if len(edits) == 0 {
		return
	}
	a.edit = job.AllOf("took over what readings found", edits...)
	a.Edit = new(a.edit.Form())
}

// Change is the edit as an edit; nil where nothing is told or the readings do not fit.
func (a *Answer) Change() job.Edit { return a.edit }

// figureText is a figure to four digits: no reading is better.
func figureText(v float64) json.RawMessage {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 4, 64), 64)
	return json.RawMessage(strconv.FormatFloat(short, 'f', -1, 64))
}

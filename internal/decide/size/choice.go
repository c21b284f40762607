package size

import (
	"slices"

	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// choice is one thing of which the size is picked: a stretch of line between branchings,
// a hose, couplers that must mate, a part of the treatment.
type choice struct {
	ids     []job.ID
	words   string
	line    bool
	hose    bool
	role    string
	options []option // by what they let through, least first
	now     int      // the option that stands
	held    bool     // it keeps its size
	barred  int      // so many of the smallest options were found wanting
}

// option is one size of a choice.
type option struct {
	size  string
	words string
	bore  float64 // m
	price float64
	clips float64 // of the price, what a line is held by
	item  string  // row of the catalogue
	rung  int
	// Halves of couplers; the rated flow of treatment, kg/s.
	sockets, plugs int
	flow           float64
	// guessed are the articles in the price that have none of their own.
	guessed []string
	edits   []job.Edit // from the study as it stands; none: it is what stands
}

// lines makes the choices of all live runs: those that meet where nothing branches off and
// are alike are one.
func (w *work) lines() {
	live := map[job.ID]bool{}
	for i, on := range w.net.live {
		if e := &w.model.Elements()[i]; on && e.Thing == model.ThingLine {
			live[e.ID] = true
		}
	}
	seen := map[job.ID]bool{}
	for i := range w.job.Net.Runs {
		r := &w.job.Net.Runs[i]
		if !live[r.ID] || seen[r.ID] {
			continue
		}
		s := w.stretch(r, live)
		for _, part := range s.Runs {
			seen[part.ID] = true
		}
		w.line(s)
	}
}

// stretch is the runs that follow one another from a run on, both ways.
func (w *work) stretch(r *job.Run, live map[job.ID]bool) cure.Stretch {
	s := cure.Stretch{}
	in := map[job.ID]bool{r.ID: true}
	met := map[job.ID]bool{}
	queue := []*job.Run{r}
	for n := 0; n < len(queue); n++ {
		r := queue[n]
		s.Runs = append(s.Runs, r)
		for _, point := range []job.ID{r.From.Point, r.To.Point} {
			if met[point] {
				continue
			}
			met[point] = true
			if p := w.idx.Point(point); p != nil {
				s.Parts = append(s.Parts, p)
			}
			if next := w.follows(r, point, live); next != nil && !in[next.ID] {
				in[next.ID] = true
				queue = append(queue, next)
			}
		}
	}
	return s
}

// follows is the run that carries on from a run at a point; nil where air branches off
// there, a part of the treatment stands, or the next is not alike.
func (w *work) follows(r *job.Run, point job.ID, live map[job.ID]bool) *job.Run {
	var next *job.Run
	for _, e := range w.idx.Ends(point) {
		if !live[e.Run.ID] || e.Run.ID == r.ID {
			continue
		}
		if next != nil {
			return nil
		}
		next = e.Run
	}
	if next == nil || next.Stock != r.Stock || next.Size != r.Size || next.Role != r.Role || w.held(next) != w.held(r) {
		return nil
	}
	if w.treats(point) || slices.ContainsFunc(w.idx.OutletsAt(point), func(o *job.Outlet) bool { return len(o.Tools) > 0 }) {
		return nil
	}
	return next
}

// treats: a part that changes the air or its pressure stands at a point.
func (w *work) treats(point job.ID) bool {
	for i := range w.model.Elements() {
		if e := &w.model.Elements()[i]; e.ID == point && e.Thing == model.ThingTreatment {
			return true
		}
	}
	return false
}

// held: a run keeps its size.
func (w *work) held(r *job.Run) bool {
	return w.wish.Keep && r.State == "existing" || !w.may(r.ID)
}

// may: the wish lets one of these things change.
func (w *work) may(ids ...job.ID) bool {
	return len(w.wish.Only) == 0 || slices.ContainsFunc(ids, func(id job.ID) bool { return slices.Contains(w.wish.Only, id) })
}

// line makes the choice of a stretch.
func (w *work) line(s cure.Stretch) {
	r := s.Runs[0]
	c := &choice{line: true, role: r.Role, held: w.held(r), words: w.lineWords(s)}
	for _, x := range s.Runs {
		c.ids = append(c.ids, x.ID)
	}
	stock, ok := w.shelf.Stock(r.Stock)
	if !ok {
		return
	}
	now, _ := stock.Size(r.Size)
	sizes := w.sizesOf(stock, r)
	for _, z := range sizes {
		o := option{size: z.Size, words: sizeWords(z.Size) + " " + stock.Words, bore: float64(z.Bore)}
		if z.Size == now.Size {
			c.now = len(c.options)
		} else {
			o.edits = w.resize(s, z.Size)
		}
		c.options = append(c.options, o)
	}
	w.add(c, func(e *model.Element) bool { return slices.Contains(c.ids, e.ID) })
}

// resize lays a stretch anew in another size: what was installed of it is then planned.
func (w *work) resize(s cure.Stretch, size string) []job.Edit {
	edits := s.Resize(w.idx, size)
	for _, r := range s.Runs {
		if r.State == "existing" {
			edits = append(edits, cure.Set(r.ID, "state", "planned"))
		}
	}
	return edits
}

// add files a choice with the elements that hang on it.
func (w *work) add(c *choice, mine func(*model.Element) bool) {
	if len(c.options) == 0 {
		return
	}
	if c.held {
		c.options, c.now = []option{c.options[c.now]}, 0
	}
	at := len(w.choices)
	w.choices = append(w.choices, c)
	for _, id := range c.ids {
		w.choiceWith[id] = at
	}
	for i := range w.model.Elements() {
		if e := &w.model.Elements()[i]; w.net.live[i] && mine(e) {
			w.choiceOf[i] = at
		}
	}
}

// hoses makes the choices of all live hoses: the sizes of the make that is there.
func (w *work) hoses() {
	for i := range w.model.Elements() {
		e := &w.model.Elements()[i]
		if !w.net.live[i] || e.Thing != model.ThingHose {
			continue
		}
		rows := w.bench.HoseSizes(e)
		if len(rows) == 0 {
			continue
		}
		c := &choice{ids: []job.ID{e.ID}, words: "hose" + w.at(e.Outlet), held: !w.may(e.ID, e.Outlet), hose: true}
		w.rows(c, rows, w.sees(e))
		w.add(c, func(x *model.Element) bool { return x.Index == e.Index })
	}
}

package prove

import (
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// work is a job while its tests are planned.
type work struct {
	study      *study.Study
	job        *job.Job
	index      *job.Index
	shelf      *catalog.Catalog
	model      *model.Model
	rule       Chosen
	atmosphere unit.AbsPressure
	bears      map[job.ID]model.Bears // the least of each thing's elements
	cutOut     unit.GaugePressure     // 0: no compressor
	straight   map[job.ID]bool        // points that stand under cut-out pressure
	tests      map[string]job.Standing
}

func newWork(s *study.Study, m *model.Model) *work {
	w := &work{
		study: s, job: s.Job(), index: s.Index(), shelf: s.Catalog(), model: m, rule: chosen(s.Job()),
		atmosphere: m.Atmosphere(), bears: map[job.ID]model.Bears{}, tests: s.Job().Standing("test"),
	}
	for i := range m.Elements() {
		e := &m.Elements()[i]
		b, ok := model.BearsOf(w.index, w.shelf, e)
		if had, twice := w.bears[e.ID]; ok && (!twice || had.Known && (!b.Known || b.Pressure < had.Pressure)) {
			w.bears[e.ID] = b
		}
	}
	for _, c := range m.Compressors() {
		w.cutOut = max(w.cutOut, c.CutOut)
	}
	w.reach()
	return w
}

// reach finds the points that no regulator stands before.
func (w *work) reach() {
	w.straight = map[job.ID]bool{}
	var queue []job.ID
	come := func(id job.ID) {
		if !w.straight[id] {
			w.straight[id] = true
			queue = append(queue, id)
		}
	}
	for _, c := range w.model.Compressors() {
		come(c.ID)
	}
	for _, s := range w.model.Sources() {
		come(s.ID)
	}
	for len(queue) > 0 {
		id := queue[0]
		queue = queue[1:]
		p := w.index.Point(id)
		if p == nil {
			continue
		}
		if kind, _ := w.shelf.Kind(p.Part.Kind); kind.Has(catalog.Regulates) {
			continue
		}
		for _, e := range w.index.Ends(id) {
			come(e.Run.From.Point)
			come(e.Run.To.Point)
		}
	}
}

// design is the greatest pressure that a section works under: cut-out, or behind
// regulators the highest of their settings.
func (w *work) design(s *stretch) unit.GaugePressure {
	set := unit.GaugePressure(0)
	for _, e := range s.ends {
		p := w.index.Point(e.Point)
		if kind, _ := w.shelf.Kind(p.Part.Kind); kind.Has(catalog.Regulates) && p.Part.Set != nil {
			set = max(set, *p.Part.Set)
		}
	}
	straight := func(id job.ID) bool { return w.straight[id] }
	plain := slices.ContainsFunc(s.points, straight) || slices.ContainsFunc(s.ends, func(e End) bool {
		p := w.index.Point(e.Point)
		kind, _ := w.shelf.Kind(p.Part.Kind)
		return !kind.Has(catalog.Regulates) && straight(e.Point)
	})
	if plain || set == 0 {
		return w.cutOut
	}
	return min(set, w.cutOut)
}

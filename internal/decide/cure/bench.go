package cure

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Bench is a study on which changes are tried; each change is tried once. It
// belongs to one goroutine at a time.
type Bench struct {
	study  *study.Study
	job    *job.Job
	idx    *job.Index
	shelf  *catalog.Catalog
	model  *model.Model
	flow   *flow.Answer
	margin float64 // Pa over a tool's least pressure that is wanted
	system unit.System

	tried map[string]*Trial
}

// NewBench is a bench on a study whose model and flows are at hand. Margin is
// the pressure wanted above a tool's least, Pa; system is that of the words.
func NewBench(s *study.Study, m *model.Model, f *flow.Answer, margin float64, system unit.System) *Bench {
	return &Bench{
		study: s, job: s.Job(), idx: s.Index(), shelf: s.Catalog(), model: m, flow: f,
		margin: margin, system: system, tried: map[string]*Trial{},
	}
}

// Trial is a study after edits, solved set by set as it is asked.
type Trial struct {
	bench  *Bench
	study  *study.Study
	model  *model.Model
	solver *model.Solver
	pairs  map[job.InUse]int
	sets   map[int]*model.Result
}

// Try applies edits in order. The error is a *job.Refusal where one does not fit.
func (b *Bench) Try(ctx context.Context, edits ...job.Edit) (*Trial, error) {
	key := keyOf(edits)
	if t, ok := b.tried[key]; ok {
		return t, nil
	}
	edit := edits[0]
	if len(edits) > 1 {
		edit = job.AllOf("", edits...)
	}
	after, err := b.study.After(edit)
	if err != nil {
		return nil, fmt.Errorf("trying a change: %w", err)
	}
	m, err := after.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("trying a change: %w", err)
	}
	t := &Trial{bench: b, study: after, model: m, solver: m.NewSolver(), pairs: pairsOf(m), sets: map[int]*model.Result{}}
	b.tried[key] = t
	return t, nil
}

// mostBuilt bounds the networks that the cures of one study are tried on, so
// that a shop where everything is short is told so in good time: the tools that
// lack most come first, and the rest are tried on what was built for those.
const mostBuilt = 24

func (b *Bench) spent() bool { return len(b.tried) >= mostBuilt }

func (b *Bench) wasTried(edits []job.Edit) bool { return b.tried[keyOf(edits)] != nil }

// keyOf is the same for the same edits.
func keyOf(edits []job.Edit) string {
	var s strings.Builder
	for _, e := range edits {
		f := e.Form()
		s.WriteString(f.Verb)
		s.Write(f.Fields)
		s.WriteByte('\n')
	}
	return s.String()
}

func pairsOf(m *model.Model) map[job.InUse]int {
	out := make(map[job.InUse]int, len(m.Pairs()))
	for i, p := range m.Pairs() {
		out[job.InUse{Tool: p.Tool, Outlet: p.Outlet}] = i
	}
	return out
}

// Study is the study after the edits.
func (t *Trial) Study() *study.Study { return t.study }

// Model is the model after the edits.
func (t *Trial) Model() *model.Model { return t.model }

// Set is the answer for one of the sets of the study's flows, at cut-in with
// loaded filters.
func (t *Trial) Set(ctx context.Context, set int) (*model.Result, error) {
	if r, ok := t.sets[set]; ok {
		return r, nil
	}
	before := &t.bench.flow.Sets[set]
	if before.CutIn.Result != nil && before.CutIn.Solved {
		t.solver.Begin(t.bench.model.StartFrom(before.CutIn.Result))
	}
	r, err := t.solver.Solve(ctx, model.Case{Running: before.Running, Supply: model.CutIn})
	if err != nil {
		return nil, fmt.Errorf("trying a change: %w", err)
	}
	t.sets[set] = r
	return r, nil
}

// Pressure is what a tool gets in a set after the edits; false where that is
// not determined.
func (t *Trial) Pressure(ctx context.Context, set int, use job.InUse) (unit.GaugePressure, bool, error) {
	r, err := t.Set(ctx, set)
	if err != nil {
		return 0, false, err
	}
	pair, ok := t.pairs[use]
	if !ok || !r.Solved || !r.Tools[pair].Known {
		return 0, false, nil
	}
	return r.Tools[pair].Pressure, true, nil
}

// Falls of a tool's pressure that count as none, Pa: of one that had enough, and
// of one that is short already, where a kilopascal more is beneath any gauge in
// a shop and must not hide the cure of another.
const (
	harmless = 100
	unseen   = 1000
)

// Verification asks each tool at each outlet for its tightest moment, the
// tightest of all first. It stops where the next has more in hand than
// enoughFalls times the greatest fall seen in enoughMoments or more: a change
// moves pressures alike in sets that differ by a tool or two.
const (
	enoughMoments = 8
	enoughFalls   = 10
)

// Harmed lists the tools that the edits make short, or visibly shorter, in the
// sets where they matter; a set is left out where matters says so. A tool above
// its least pressure and the margin is not short, whatever it loses.
func (t *Trial) Harmed(ctx context.Context, matters func(set int) bool) ([]job.ID, error) {
	var out []job.ID
	asked, greatest := 0, 0.0
	for _, m := range t.bench.tightest(matters) {
		if asked >= enoughMoments && m.inHand > enoughFalls*greatest+harmless {
			break
		}
		asked++
		now, known, err := t.Pressure(ctx, m.set, m.use)
		if err != nil {
			return nil, err
		}
		greatest = math.Max(greatest, float64(m.was-now))
		allowed := m.inHand + harmless
		if m.inHand < 0 {
			allowed = unseen
		}
		hurt := !known || float64(m.was-now) > allowed
		if hurt && !slices.Contains(out, m.use.Tool) {
			out = append(out, m.use.Tool)
		}
	}
	return out, nil
}

// moment is a tool in the set where it has least in hand over its need, Pa.
type moment struct {
	set    int
	use    job.InUse
	was    unit.GaugePressure
	inHand float64
}

// tightest lists the tightest moment of each tool at each outlet among the sets
// that matter, the tightest of all first.
func (b *Bench) tightest(matters func(int) bool) []moment {
	var out []moment
	at := map[job.InUse]int{}
	for i := range b.flow.Sets {
		s := &b.flow.Sets[i].CutIn
		if !s.Solved || !matters(i) {
			continue
		}
		for k := range s.Tools {
			x := &s.Tools[k]
			if !x.Known {
				continue
			}
			m := moment{i, job.InUse{Tool: x.Tool, Outlet: x.Outlet}, x.Pressure, float64(x.Margin) - b.margin}
			n, ok := at[m.use]
			switch {
			case !ok:
				at[m.use] = len(out)
				out = append(out, m)
			case m.inHand < out[n].inHand:
				out[n] = m
			}
		}
	}
	slices.SortStableFunc(out, func(x, y moment) int { return cmp.Compare(x.inHand, y.inHand) })
	return out
}

// everywhere says that a change matters in every set.
func everywhere(int) bool { return true }

// Set is the edit that sets a key of a thing, "part.set_kPa_g", to a value as
// the file writes it; nil takes it away. Only values that JSON holds may be given.
func Set(id job.ID, key string, value any) job.Edit {
	raw, err := json.Marshal(value)
	if err != nil {
		panic("cure: a value that JSON cannot hold: " + err.Error())
	}
	return &job.Change{ID: id, Key: key, Value: raw}
}

// Propose tries edits that are no matter of a tool's pressure, but may move it:
// sizes, profiles. It gives no cure where they do not fit or make a tool short.
func (b *Bench) Propose(ctx context.Context, words string, edits ...job.Edit) (job.Cure, bool, error) {
	t, err := b.Try(ctx, edits...)
	if refused(err) {
		return job.Cure{}, false, nil
	}
	if err != nil {
		return job.Cure{}, false, err
	}
	harmed, err := t.Harmed(ctx, everywhere)
	if err != nil || len(harmed) > 0 {
		return job.Cure{}, false, err
	}
	return job.Cure{Words: words, Edits: forms(edits), Cures: true, Verified: true}, true, nil
}

// Offer gives edits that add a part of little or no loss, a valve, a drain. They
// are held to fit the job and not solved, as the cure says.
func (b *Bench) Offer(words string, edits ...job.Edit) (job.Cure, bool) {
	if _, _, err := job.AllOf("", edits...).Apply(b.job); err != nil {
		return job.Cure{}, false
	}
	return job.Cure{Words: words, Edits: forms(edits), Cures: true}, true
}

func forms(edits []job.Edit) []job.EditForm {
	out := make([]job.EditForm, 0, len(edits))
	for _, e := range edits {
		out = append(out, e.Form())
	}
	return out
}

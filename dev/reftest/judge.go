package reftest

import (
	"errors"
	"math"

	"dropleg/engine/cite"
)

// Outcome is what became of a row.
type Outcome string

// The outcomes.
const (
	Held      Outcome = "held"              // within the row's own tolerance
	Explained Outcome = "differs, because"  // within the wider bound of a stated reason
	Recalled  Outcome = "recalled"          // reported, never failed
	Failed    Outcome = "failed"            // neither
	Later     Outcome = "not answered here" // no law, with the reason
)

// Result is a row judged.
type Result struct {
	Row
	Law     *Law // nil: none claims the row
	Figures []Figure
	Outcome Outcome
	Why     string // of Explained, Later and some Recalled; what went wrong of Failed
	Within  bool   // every figure within the row's own tolerance
}

// Judge asks for each row the law that claims it. The order is that of the rows.
func Judge(rows []Row) []Result {
	laws := Laws()
	results := make([]Result, len(rows))
	for i, r := range rows {
		results[i] = judge(r, lawOf(laws, r))
	}
	return results
}

// lawOf is the first law that claims the row; the test holds that there is no
// second.
func lawOf(laws []Law, r Row) *Law {
	for i := range laws {
		if laws[i].claims(r) {
			return &laws[i]
		}
	}
	return nil
}

func judge(r Row, law *Law) Result {
	res := Result{Row: r, Law: law, Outcome: Later}
	if law == nil {
		res.Why = laterWhy(r)
		if res.Why == "" && r.How != cite.Recalled {
			res.Outcome, res.Why = Failed, "no law claims the row and no reason stands for it"
		}
		return res
	}
	figures, err := law.figures(r)
	var aside unused
	switch {
	case errors.As(err, &aside):
		res.Why = string(aside)
		return res
	case err != nil:
		res.Outcome, res.Why = Failed, err.Error()
		return res
	}
	res.Figures = figures
	res.Within = within(figures, nil)
	switch {
	case r.How == cite.Recalled, r.How == cite.Common:
		res.Outcome = Recalled
		if !res.Within {
			res.Why, _ = law.because(r, figures)
		}
	case res.Within:
		res.Outcome = Held
	default:
		res.Outcome, res.Why = Failed, "outside its tolerance, and no reason stands for it"
		if why, ok := law.because(r, figures); ok {
			res.Outcome, res.Why = Explained, why
		}
	}
	return res
}

// because is the first reason that covers the row's figures and stands.
func (l Law) because(r Row, figures []Figure) (why string, ok bool) {
	for i := range l.Because {
		b := &l.Because[i]
		if b.When(r) && within(figures, b) && b.stands(r) {
			return b.Why, true
		}
	}
	return "", false
}

// stands works what the reason says, where that can be worked.
func (b Because) stands(r Row) bool {
	if b.Also == nil {
		return true
	}
	figures, err := b.Also(r)
	return err == nil && within(figures, nil)
}

// within says whether every figure lies inside its own bound, or inside the wider
// one of an explanation.
func within(figures []Figure, b *Because) bool {
	for _, f := range figures {
		allowed := f.Allowed
		if b != nil {
			allowed = math.Max(allowed, math.Max(b.Rel*math.Abs(f.Want), b.Abs))
		}
		if !(f.Off() <= allowed) {
			return false
		}
	}
	return len(figures) > 0
}

// Worst is the figure furthest off, as a share of itself where that has sense.
func (r Result) Worst() (Figure, bool) {
	var worst Figure
	found, most := false, -1.0
	for _, f := range r.Figures {
		share, ok := f.Share()
		if !ok {
			share = f.Off()
		}
		if !(share <= most) {
			worst, found, most = f, true, share
		}
	}
	return worst, found
}

// Tally counts results by how their rows came about.
type Tally struct {
	Evidence                // answered
	ReadHeld, ReadExplained int
	Differs                 int // solved or computed, explained
	RecalledOff             int
	Failed, Unanswered      int
}

// TallyOf counts.
func TallyOf(results []Result) Tally {
	var t Tally
	for _, r := range results {
		switch r.Outcome {
		case Later:
			t.Unanswered++
			continue
		case Failed:
			t.Failed++
		case Recalled:
			if !r.Within {
				t.RecalledOff++
			}
		case Explained:
			if r.How != cite.Read {
				t.Differs++
			}
		}
		t.add(r)
		if r.How == cite.Read && r.Outcome == Held {
			t.ReadHeld++
		}
		if r.How == cite.Read && r.Outcome == Explained {
			t.ReadExplained++
		}
	}
	return t
}

func (e *Evidence) add(r Result) {
	switch r.How {
	case cite.Read:
		e.Read++
	case Solved:
		e.Solved++
	case cite.Computed:
		e.Computed++
	default:
		e.Recalled++
	}
}

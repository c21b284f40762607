package size

import (
	"context"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// work is one study laid out for picking sizes.
type work struct {
	study *study.Study
	job   *job.Job
	idx   *job.Index
	shelf *catalog.Catalog
	model *model.Model
	flow  *flow.Answer
	bench *cure.Bench
	wish  Wish

	moments    []moment
	net        *net
	choices    []*choice
	choiceOf   []int // by element; -1: it stays as it is
	choiceWith map[job.ID]int
	rungs      []rung
	prices     *prices
	rate       float64 // money for an hour of work; 0: none stated
	meets      []*meet
	starred    map[string]priced // what a point comes to, by all that it hangs on
	unpriced   error             // why a point could not be taken off
	notes      []string
	unsold     []string // articles that were not taken, for nobody sells them
	cutOut     float64  // Pa g, the greatest

	best     *study.Study // with the largest sizes on offer
	top      *verdict     // of these, where they do
	bestDays *day.Answer
	// timesWorked counts the days asked for; oftener is what a tool wants more each time that
	// it goes short too often, Pa.
	timesWorked int
	oftener     float64
	// mixedBound is what a selection with mixed sizes on rings costs at least.
	mixedBound float64
	slackMains bool               // no size keeps the loss in mains within the rule
	exempt     map[int]bool       // choices that no size keeps under the velocity of the rules
	extra      map[int]float64    // Pa that a pair wants more, by what verifying found
	less       map[int]float64    // Pa that a pair is asked less, for no size gives it more
	ends       map[endKey]float64 // Pa absolute that is wanted at the end of a main, by its loss
}

func newWork(ctx context.Context, s *study.Study, wish Wish) (*work, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	f, err := s.Flow(ctx)
	if err != nil {
		return nil, err
	}
	j := s.Job()
	w := &work{
		oftener: firstOftener,
		study:   s, job: j, idx: s.Index(), shelf: s.Catalog(), model: m, flow: f, wish: wish,
		bench: cure.NewBench(s, m, f, float64(j.RuleMargin().Value), wish.System),
		extra: map[int]float64{}, less: map[int]float64{}, ends: map[endKey]float64{}, exempt: map[int]bool{}, starred: map[string]priced{}, choiceWith: map[job.ID]int{}, choiceOf: slices.Repeat([]int{-1}, len(m.Elements())),
	}
	for _, c := range m.Compressors() {
		w.cutOut = math.Max(w.cutOut, float64(c.CutOut))
	}
	w.findMoments()
	if err := w.usable(); err != nil {
		return nil, err
	}
	var pairs []int
	for _, x := range w.moments {
		pairs = append(pairs, x.running...)
	}
	slices.Sort(pairs)
	w.net = newNet(m, slices.Compact(pairs))
	w.lines()
	w.hoses()
	w.couplers()
	w.treatment()
	if err := w.climb(ctx); err != nil {
		return nil, err
	}
	if err := w.price(ctx); err != nil {
		return nil, err
	}
	return w, w.largest(ctx)
}

// limit is the velocity that a line or hose may have, m/s; 0: none.
func (w *work) limit(thing model.Thing, role string) float64 {
	switch {
	case thing == model.ThingHose:
		return float64(w.job.RuleHoseVelocity().Value)
	case thing != model.ThingLine:
		return 0
	case role == "main" || role == "ring":
		return float64(w.job.RuleMainVelocity().Value)
	case role == "branch" || role == "drop":
		return float64(w.job.RuleDropVelocity().Value)
	}
	return 0
}

// thinnest is the bore under which no line of a shop is laid, m, unless it is there
// already: common practice, no source.
const thinnest = 0.0115

// sizesOf lists the sizes that a run of a stock may have: what bears the pressure at the
// temperature of its zone, by bore, and the one that it has.
func (w *work) sizesOf(stock catalog.Stock, r *job.Run) []catalog.Size {
	now, _ := stock.Size(r.Size)
	temp := w.job.ClimateOf(w.idx.ZoneOf(r)).Summer
	_, _, _, told := stock.Rating(now.Size, temp, "")
	var out []catalog.Size
	for _, z := range stock.Sizes {
		bears, _, _, known := stock.Rating(z.Size, temp, "")
		weak := known && float64(bears) < w.cutOut || !known && told
		if z.Size == now.Size || float64(z.Bore) >= thinnest && !weak {
			out = append(out, z)
		}
	}
	slices.SortStableFunc(out, func(x, y catalog.Size) int {
		switch {
		case x.Bore < y.Bore:
			return -1
		case x.Bore > y.Bore:
			return 1
		}
		return 0
	})
	return out
}

// sees is the greatest pressure that a thing may come to see: the cut-out; that a
// regulator stands before it is not counted on.
func (w *work) sees(*model.Element) unit.GaugePressure { return unit.GaugePressure(w.cutOut) }

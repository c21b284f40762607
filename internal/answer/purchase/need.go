package purchase

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// gatherer collects needs.
type gatherer struct {
	job   *job.Job
	index *job.Index
	shelf *catalog.Catalog
	byM   map[string]bool // articles priced or sold by the metre
	needs []Need
	at    map[string]int
}

func newGatherer(j *job.Job, shelf *catalog.Catalog) *gatherer {
	return &gatherer{job: j, index: job.NewIndex(j), shelf: shelf, byM: map[string]bool{}, at: map[string]int{}}
}

// needsOf lists what a job has to have: all that is planned of the take-off but for its
// lines, which are cut, and what holds them.
func needsOf(j *job.Job, shelf *catalog.Catalog, p *parts.Answer, h *hold.Answer) []Need {
	g := newGatherer(j, shelf)
	for _, price := range j.OwnPrices() {
		if price.Per == "m" {
			g.byM[parts.Fold(price.Article)] = true
		}
	}
	for _, l := range p.All() {
		if l.State == parts.Planned && l.Group != parts.Made && l.Group != parts.Stock {
			g.line(&l)
		}
	}
	if h != nil {
		g.supports(h)
	}
	for i := range g.needs {
		n := &g.needs[i]
		g.spare(n)
		slices.Sort(n.From)
		n.From = slices.Compact(n.From)
		for _, d := range j.Prices.Drawer {
			if slices.Contains(n.names, parts.Fold(d.Article)) {
				n.Drawer += d.Number
			}
		}
	}
	return g.needs
}

// spare adds what the job's rules have on top of an article, whole pieces of it, to be
// there with the first of it.
func (g *gatherer) spare(n *Need) {
	share := 0.0
	switch n.Group {
	case parts.Fitting:
		share = float64(g.job.RuleSpareFittings().Value)
	case Clips:
		share = float64(g.job.RuleSpareClips().Value)
	}
	const whole = 1e-9 // a share of a whole number that comes to a whole number stays that
	if n.Spare = math.Ceil(n.Amount*share - whole); n.Spare <= 0 {
		n.Spare = 0
		return
	}
	n.Amount += n.Spare
	for _, s := range Stages() {
		if n.Stages[s] > 0 {
			n.Stages[s] += n.Spare
			return
		}
	}
}

// line adds a line of the take-off.
func (g *gatherer) line(l *parts.Line) {
	amount, metres := float64(l.Pieces), false
	names := l.Names()
	if l.Length != nil && (l.Group == parts.Supplies && l.Pieces == 0 || l.Group == parts.Hose && g.byM[names[0]]) {
		metres = true
		amount = float64(*l.Length)
		if l.Group == parts.Hose {
			amount *= float64(l.Pieces)
		}
	}
	if amount <= 0 && l.Joints > 0 {
		amount = 1 // how much the joints take is not known: one tin, one roll
		if pack := packs[l.Article]; pack > 0 {
			amount = max(1, math.Ceil(float64(l.Mass)/pack))
		}
	}
	words := l.Words
	if metres && l.Group == parts.Hose {
		words = strings.TrimSpace(l.Item + " hose, cut to length")
		if row, ok := g.shelf.Hose(l.Item); ok {
			words = row.Words + ", cut to length"
		}
	}
	n := g.need(l.Article, words, l.Group, metres, names)
	n.Amount += amount
	n.Counted = l.Counted
	n.From = append(n.From, l.From...)
	for _, from := range l.From {
		n.Stages[g.stage(from)] += amount / float64(len(l.From))
	}
}

// supports adds clips by stock and size, fixed ones apart, and what they are screwed on with.
func (g *gatherer) supports(h *hold.Answer) {
	for i := range h.Supports {
		s := &h.Supports[i]
		r := g.index.Run(s.Run)
		if r == nil || s.State != string(parts.Planned) {
			continue
		}
		words := "clip, the line slides in it"
		if s.Kind == "fixed" {
			words = "clip that holds the line fast"
		}
		clip, fixing := Held(g.index, s)
		g.piece(clip, words+", for "+g.sizeOf(r), Clips, s.ID, g.stage(string(s.Run)))
		g.piece(fixing, "screw or anchor for a clip, into "+strings.TrimPrefix(fixing, fixings), Clips, s.ID, g.stage(string(s.Run)))
	}
}

const fixings = "fixing "

// Held names the two articles that a support is bought as, what holds the line and what
// that is fixed with; none for a run that is not there.
func Held(index *job.Index, s *hold.Support) (clip, fixing string) {
	r := index.Run(s.Run)
	if r == nil {
		return "", ""
	}
	clip = "clip " + r.Stock + " " + r.Size
	if s.Kind == "fixed" {
		clip = "fixed " + clip
	}
	into := cmp.Or(s.On.What, "free")
	if s.On.Place != nil {
		into = "wall"
		if wall := index.Wall(s.On.Wall); wall != nil {
			into = cmp.Or(wall.MadeOf, into)
		}
	}
	return clip, fixings + into
}

// Clips is the group of what holds the lines.
const Clips parts.Group = "clips and fixings"

func (g *gatherer) sizeOf(r *job.Run) string {
	if s, ok := g.shelf.Stock(r.Stock); ok {
		return s.Words + " " + parts.SizeWords(r.Size)
	}
	return r.Stock + " " + r.Size
}

func (g *gatherer) piece(article, words string, group parts.Group, from string, at Stage) {
	n := g.need(article, words, group, false, []string{parts.Fold(article)})
	n.Amount++
	n.Stages[at]++
	n.From = append(n.From, from)
}

// need is the row of an article, made where there is none.
func (g *gatherer) need(article, words string, group parts.Group, metres bool, names []string) *Need {
	i, ok := g.at[article]
	if !ok {
		i = len(g.needs)
		g.at[article] = i
		g.needs = append(g.needs, Need{Article: article, Words: words, Group: group, Metres: metres, Stages: map[Stage]float64{}, From: []string{}, names: names})
	}
	return &g.needs[i]
}

// stage is the stage of the work that a thing of the drawing belongs to.
func (g *gatherer) stage(from string) Stage {
	id := parts.ThingOf(from)
	if r := g.index.Run(id); r != nil {
		return stageOf(r.Role)
	}
	if p := g.index.Point(id); p != nil {
		if k, ok := g.shelf.Kind(p.Part.Kind); ok && (k.Group == catalog.Plant || k.Group == catalog.Treatment) {
			return AtPlant
		}
		at := AtOutlets
		for _, e := range g.index.Ends(id) {
			if s := stageOf(e.Run.Role); order(s) < order(at) {
				at = s
			}
		}
		return at
	}
	return AtOutlets
}

func stageOf(role string) Stage {
	switch role {
	case "link":
		return AtPlant
	case "main", "ring":
		return InMains
	}
	return InDrops
}

func order(s Stage) int { return slices.Index(Stages(), s) }

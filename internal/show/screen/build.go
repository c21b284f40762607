package screen

import (
	"context"
	"fmt"
	"strings"

	"dropleg/internal/answer/hold"
	"dropleg/internal/decide/build"
	"dropleg/internal/shop/job"
)

// Build is the order of work.
type Build struct {
	Sentence string        `json:"sentence"`
	Cautions []string      `json:"cautions"`
	Progress []ProgressRow `json:"progress"`
	Steps    []StepRow     `json:"steps"`
	// Next, NextCut and NextJoint are tasks; "" for none.
	Next      string `json:"next"`
	NextCut   string `json:"next_cut"`
	NextJoint string `json:"next_joint"`
}

// ProgressRow is how far a stage has come.
type ProgressRow struct {
	Stage string `json:"stage"`
	Words string `json:"words"`
	Done  int    `json:"done"`
	All   int    `json:"all"`
}

// StepRow is one thing to do.
type StepRow struct {
	Task    string   `json:"task"`
	What    string   `json:"what"` // fix, cut, join, hide
	Stage   string   `json:"stage"`
	Figure  string   `json:"figure"` // the cut length, the number of the joint, how many supports
	Words   string   `json:"words"`
	Details []string `json:"details"` // marks, bends, seals
	Line    string   `json:"line"`    // id of the line that it is on
	Things  []string `json:"things"`  // to light on the drawing
	Joint   string   `json:"joint,omitempty"`
	Done    bool     `json:"done"`
	Waits   string   `json:"waits"` // what has to come first
	Written Written  `json:"written"`
}

// built is the order of work while it is worded.
type built struct {
	*held
	a *build.Answer
}

func (s *Shop) built(ctx context.Context, ask Ask) (*built, error) {
	h, err := s.held(ctx, ask)
	if err != nil {
		return nil, err
	}
	a, err := build.Of(ctx, s.study)
	if err != nil {
		return nil, fmt.Errorf("ordering the work: %w", err)
	}
	return &built{h, a}, nil
}

// Build tells the order of work and how far it has come.
func (s *Shop) Build(ctx context.Context, ask Ask) (Build, error) {
	b, err := s.built(ctx, ask)
	if err != nil {
		return Build{}, err
	}
	out := Build{Sentence: b.sentence(), Cautions: howToBuild().cautions, Progress: []ProgressRow{}, Steps: []StepRow{}}
	for _, c := range b.a.Progress {
		out.Progress = append(out.Progress, ProgressRow{string(c.Stage), stageWords(c.Stage), c.Done, c.All})
	}
	for i := range b.a.Steps {
		out.Steps = append(out.Steps, b.step(&b.a.Steps[i]))
	}
	task := func(i int) string {
		if i < 0 {
			return ""
		}
		return b.a.Steps[i].Task
	}
	out.Next, out.NextCut, out.NextJoint = task(b.a.Next), task(b.a.NextCut), task(b.a.NextJoint)
	return out, nil
}

func stageWords(s build.Stage) string {
	return map[build.Stage]string{build.Supports: "Supports", build.Mains: "Mains", build.Drops: "Drops and outlets", build.Plant: "Plant"}[s]
}

// sentence says how far the work has come and what is next.
func (b *built) sentence() string {
	a := b.a
	switch {
	case a.All == 0:
		return "Nothing is planned that is still to be built."
	case a.Next < 0:
		return fmt.Sprintf("All %d steps are done.", a.All)
	}
	s := b.step(&a.Steps[a.Next])
	next := map[string]string{build.Fix: s.Words, build.Cut: "cut " + s.Figure + ", " + s.Words, build.Join: "joint " + s.Figure + ", " + s.Words, build.Hide: s.Words}[s.What]
	return fmt.Sprintf("%d of %d steps done; next: %s.", a.Done, a.All, next)
}

// step words one.
func (b *built) step(s *build.Step) StepRow {
	row := StepRow{
		Task: s.Task, What: s.What, Stage: string(s.Stage), Line: string(s.Run), Things: []string{}, Details: []string{},
		Done: s.Done, Written: written(s.Last, s.Seen, s.Clash),
	}
	if s.Run != "" {
		row.Things = append(row.Things, string(s.Run))
	}
	switch s.What {
	case build.Fix:
		b.fix(&row, s)
	case build.Cut:
		b.cut(&row, s)
	case build.Join:
		b.join(&row, s)
	case build.Hide:
		row.Words = "test before " + b.named(s.Run) + " is hidden " + hiddenWords(s.Hidden)
		if n := len(s.Open); n > 0 {
			row.Waits = plural(n, "joint on it was", "joints on it were") + " not found tight"
		}
	}
	return row
}

func hiddenWords(how string) string {
	switch how {
	case "void":
		return "in its void"
	case "buried":
		return "in the ground"
	}
	return "above the " + how + " ceiling"
}

func (b *built) fix(row *StepRow, s *build.Step) {
	row.Figure = fmt.Sprint(len(s.Supports))
	row.Words = plural(len(s.Supports), "support", "supports") + " for " + b.named(s.Run)
	for _, p := range s.Supports {
		row.Things = append(row.Things, p.ID)
		row.Details = append(row.Details, b.markOf(p))
	}
}

// markOf is where a support is marked.
func (b *built) markOf(p *hold.Support) string {
	text := b.place(p.Along) + " along the line"
	if p.On.Place != nil {
		text = b.wallName(p.On.Wall) + ": " + b.place(p.On.Place.Along) + " along, " + b.place(p.On.Up) + " up"
	}
	if p.Kind == holdsFast {
		text += ", holds fast"
	}
	return text
}

func (b *built) cut(row *StepRow, s *build.Step) {
	p := s.Piece
	row.Figure = notKnown
	if p.Cut != nil {
		row.Figure = b.ask.System.Marked(*p.Cut)
	}
	stock := p.Stock
	if x, ok := b.study.Catalog().Stock(p.Stock); ok {
		stock = x.Words
	}
	row.Words = stock + " " + p.Size + " for " + b.named(p.Run)
	if p.TooShort {
		row.Waits = "the fittings stand closer than their bodies allow"
	}
	for _, x := range p.Bends {
		row.Details = append(row.Details, fmt.Sprintf("bend of %.0f° begins %s from the end, radius %s", x.Turn, b.ask.System.Marked(x.Begins), b.radius(x.Radius)))
	}
	if p.From.Mark != nil {
		m := p.From.Mark
		row.Details = append(row.Details, "from "+b.wallName(m.Wall)+", "+b.place(m.Along)+" along, "+b.place(m.Up)+" up")
	}
	for _, n := range p.Notes {
		row.Details = append(row.Details, b.namesIn(n))
	}
}

func (b *built) join(row *StepRow, s *build.Step) {
	k := s.Joint
	row.Figure, row.Joint = fmt.Sprint(k.Number), k.ID
	row.Words = strings.TrimSpace(k.Words+" "+k.Size) + ": " + b.meets(k.Sides[0].Thing, k.Sides[1].Thing)
	for _, side := range k.Sides {
		row.Things = addOnce(row.Things, string(wholeOf(side.Thing)))
	}
	if k.Needs.Seal != "" {
		row.Details = append(row.Details, k.Needs.Seal)
	}
	if k.Needs.Turns > 0 {
		row.Details = append(row.Details, fmt.Sprintf("%.3g turns past hand tight", k.Needs.Turns))
	}
	if k.Needs.Mark > 0 {
		row.Details = append(row.Details, "mark the pipe "+b.ask.System.Marked(k.Needs.Mark)+" from its end")
	}
	row.Waits = k.Problem
}

// meets names the two things that meet in a joint.
func (h *held) meets(a, c string) string {
	one, other := h.within(a), h.within(c)
	if one == other {
		return one
	}
	return one + ", " + other
}

// within names a thing within a thing.
func (h *held) within(id string) string {
	whole, rest, inner := strings.Cut(id, "/")
	name := h.named(job.ID(whole))
	if inner && !strings.HasPrefix(rest, "piece-") {
		name = strings.ReplaceAll(rest, "-", " ") + " of " + name
	}
	return name
}

// wholeOf is the thing that a thing within it belongs to.
func wholeOf(id string) job.ID {
	first, _, _ := strings.Cut(id, "/")
	return job.ID(first)
}

// answerBuild tells how far the work has come; it is no verdict.
func answerBuild(in *inquiry) answer {
	b := in.built
	facts := []Fact{}
	for _, c := range b.a.Progress {
		facts = append(facts, Fact{Words: stageWords(c.Stage), Figure: fmt.Sprintf("%d of %d", c.Done, c.All), From: counted("steps of the work that the records say are done")})
	}
	mark := Told
	if b.a.All > 0 && b.a.Next < 0 {
		mark = Yes
	}
	return answer{mark: mark, words: b.sentence(), facts: facts}
}

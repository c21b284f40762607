package screen

import (
	"context"
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/job"
)

// Prove is the tests of a job and its joints.
type Prove struct {
	Sentence  string       `json:"sentence"`
	Cautions  []string     `json:"cautions"`
	Rule      string       `json:"rule"`
	RuleFrom  Origin       `json:"rule_from"`
	Sections  []SectionRow `json:"sections"`
	Joints    []JointRow   `json:"joints"`
	Tight     int          `json:"tight"`
	Outlets   []ProofRow   `json:"outlets"`
	Whole     []MadeRow    `json:"whole"` // leaks measured at the plant
	Checked   []string     `json:"checked"`
	Unchecked []string     `json:"not_checked"`
}

// SectionRow is a section with its test.
type SectionRow struct {
	ID      string    `json:"id"`
	Name    string    `json:"name"`
	Words   string    `json:"words"` // "14 m of line, 5.2 L, 23 joints"
	Things  []string  `json:"things"`
	Test    *TestRow  `json:"test,omitempty"`
	Leak    *TestRow  `json:"leak_test,omitempty"`
	Refused string    `json:"refused"` // why it is not tested above working pressure
	Items   []ItemRow `json:"items"`
	Hold    string    `json:"hold"` // how long a decay test has to last
	Limit   string    `json:"limit"`
	State   string    `json:"state"` // of its newest decay test; "" for none
	Made    []MadeRow `json:"made"`
	Pascals float64   `json:"expected_Pa_g"` // pressure that a gauge would show there
}

// TestRow is a way to put a section under pressure.
type TestRow struct {
	Pressure string    `json:"pressure"`
	Stages   []RiseRow `json:"stages"`
	Distance string    `json:"distance"`
	Words    string    `json:"words"` // room, energy
	Fits     bool      `json:"fits"`
	Relief   string    `json:"relief"`
	From     Origin    `json:"from"`
}

// RiseRow is a step on the way up.
type RiseRow struct {
	Pressure string `json:"pressure"`
	Share    string `json:"share"`
	Words    string `json:"words"`
}

// ItemRow is what has to bear a test or be kept from it.
type ItemRow struct {
	Thing   string `json:"thing"`
	Name    string `json:"name"`
	Words   string `json:"words"`
	Stays   bool   `json:"stays"`
	Task    string `json:"task"`
	Written string `json:"written"`
}

// JointRow is a joint with what was found at it.
type JointRow struct {
	ID      string  `json:"id"`
	Number  int     `json:"number"`
	Words   string  `json:"words"`
	Between string  `json:"between"`
	Thing   string  `json:"thing"`
	Found   string  `json:"found"` // not-checked, tight, bubbles, mended, clash
	Written Written `json:"written"`
}

// MadeRow is a test that was made.
type MadeRow struct {
	Record string    `json:"record"`
	When   string    `json:"when"`
	Figure string    `json:"figure"`
	Words  string    `json:"words"`
	State  string    `json:"state"` // holds, leaks, open, gains, useless, told
	Chart  *DecayRow `json:"chart,omitempty"`
}

// ProofRow is an outlet with what was read there.
type ProofRow struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Read   string `json:"read"`   // "" for nothing yet
	Design string `json:"design"` // under the same conditions
	Words  string `json:"words"`
	Dew    string `json:"dew"`
}

// proved is the tests while they are worded.
type proved struct {
	*held
	a *prove.Answer
}

func (s *Shop) proved(ctx context.Context, ask Ask) (*proved, error) {
	h, err := s.held(ctx, ask)
	if err != nil {
		return nil, err
	}
	a, err := prove.Of(ctx, s.study)
	if err != nil {
		return nil, fmt.Errorf("planning the tests: %w", err)
	}
	return &proved{h, a}, nil
}

// Prove tells how the job is tested and what was found.
func (s *Shop) Prove(ctx context.Context, ask Ask) (Prove, error) {
	p, err := s.proved(ctx, ask)
	if err != nil {
		return Prove{}, err
	}
	a := p.a
	out := Prove{
		Sentence: p.sentence(), Cautions: doesItHold().cautions, Rule: p.rule(), Sections: []SectionRow{}, Joints: []JointRow{}, Outlets: []ProofRow{}, Whole: []MadeRow{},
		Tight: a.Progress.Tight, Checked: a.Checked, Unchecked: a.Unchecked,
	}
	out.RuleFrom = *from("Test pressure", "factor of the rule × greatest working pressure", "the job names another rule or factor under its rules: the code of the place and the maker come first").by(a.Rule.Ref)
	for i := range a.Sections {
		out.Sections = append(out.Sections, p.section(&a.Sections[i]))
	}
	for i := range a.Joints {
		out.Joints = append(out.Joints, p.joint(&a.Joints[i]))
	}
	for i := range a.Outlets {
		out.Outlets = append(out.Outlets, p.outlet(&a.Outlets[i]))
	}
	for i := range a.Whole {
		out.Whole = append(out.Whole, p.plant(&a.Whole[i]))
	}
	return out, nil
}

// rule says by which rule the test pressure is chosen.
func (p *proved) rule() string {
	r := p.a.Rule
	text := fmt.Sprintf("%.3g times the greatest working pressure, held for %s: %s", r.Factor, p.plain(unit.KindDuration, float64(r.Hold)), r.Words)
	switch r.From {
	case "default":
		text += ". Nobody named a rule for this job, so this is the default"
	case "job":
		text += ", a factor of the job's own"
	}
	return text + "."
}

// sentence sums the proof up.
func (p *proved) sentence() string {
	a := p.a
	k := a.Progress
	switch {
	case k.All == 0:
		return "Cannot tell: there is no joint to check yet."
	case k.Clash > 0:
		return fmt.Sprintf("Not yet: at %s two people found different things.", plural(k.Clash, "joint", "joints"))
	case k.Bubbles+k.Mended > 0:
		return fmt.Sprintf("Not yet: %s, %d of %d joints tight.", leaksWords(k), k.Tight, k.All)
	}
	held := 0
	for i := range a.Sections {
		switch a.Sections[i].Stands() {
		case prove.Leaks:
			return "Not yet: " + p.sectionName(&a.Sections[i]) + " leaks by its decay test."
		case prove.Holds:
			held++
		}
	}
	text := fmt.Sprintf("%d of %d joints found tight, %d of %s shown to hold", k.Tight, k.All, held, plural(len(a.Sections), "section", "sections"))
	if k.Left() == 0 && held == len(a.Sections) {
		return "Yes: " + text + "."
	}
	return "Cannot tell: " + text + "."
}

func leaksWords(k prove.Progress) string {
	text := ""
	if k.Bubbles > 0 {
		text = plural(k.Bubbles, "joint bubbles", "joints bubble")
	}
	if k.Mended > 0 {
		if text != "" {
			text += ", "
		}
		text += plural(k.Mended, "mended one", "mended ones") + " to be checked again"
	}
	return text
}

// answerProve weighs the proof; nothing is called proven that no record shows.
func answerProve(in *inquiry) answer {
	p := in.proved
	words := p.sentence()
	mark := Unknown
	switch {
	case words[0] == 'Y':
		mark = Yes
	case words[0] == 'N':
		mark = NotYet
	}
	k := p.a.Progress
	return answer{mark: mark, words: words, facts: []Fact{
		{Words: "Joints found tight", Figure: fmt.Sprintf("%d of %d", k.Tight, k.All), From: counted("joints of the take-off whose newest record says tight")},
	}}
}

func (p *proved) joint(k *prove.Joint) JointRow {
	row := JointRow{
		ID: k.ID, Number: k.Number, Words: k.Words, Between: p.meets(k.Sides[0].Thing, k.Sides[1].Thing),
		Thing: string(p.onDrawing(wholeOf(k.Sides[0].Thing))), Found: k.Found, Written: written(k.Last, k.Seen, k.Clash),
	}
	if k.Size != "" {
		row.Words += " " + k.Size
	}
	for _, id := range k.Seen { // the newest picture stays in reach when the joint was checked again
		if r := p.index.Record(id); r != nil && r.Photo != "" {
			row.Written.Photo = r.Photo
		}
	}
	return row
}

func (p *proved) outlet(o *prove.Outlet) ProofRow {
	row := ProofRow{ID: string(o.ID), Name: p.named(o.ID), Words: "no flowing pressure read yet: read a gauge here with the tool running"}
	if o.Read != nil {
		row.Read, row.Words = p.plain(unit.KindGauge, float64(*o.Read)), by(o.Last)
	}
	switch {
	case o.Design != nil:
		row.Design = p.plain(unit.KindGauge, float64(*o.Design))
	case o.Read != nil:
		row.Words += "; the receiver's pressure was not read with it, so nothing stands beside it"
	}
	if o.Dew != nil && o.Dew.Reading.Dew != nil {
		row.Dew = p.plain(unit.KindTemperature, float64(*o.Dew.Reading.Dew))
		if o.DewSays != nil {
			row.Dew += ", by the design at most " + p.plain(unit.KindTemperature, float64(*o.DewSays))
		}
	}
	return row
}

// sectionName is what a section is called: its longest main, or where it has none its
// longest line, and how many more it has.
func (p *proved) sectionName(s *prove.Section) string {
	best, most := job.ID(s.ID), unit.Length(-1)
	leads := false
	for _, id := range s.Runs {
		r := p.index.Run(id)
		main := r.Role == "main" || r.Role == "ring"
		if length, _ := p.index.LengthOf(r); main && !leads || main == leads && length > most {
			best, most, leads = id, length, main
		}
	}
	name := upper(p.named(best))
	if n := len(s.Runs) - 1; n > 0 {
		name += " and " + plural(n, "more line", "more lines")
	}
	return name
}

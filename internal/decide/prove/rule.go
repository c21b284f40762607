package prove

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Rule is a published rule for the pressure of a pneumatic test.
type Rule struct {
	ID     string        `json:"id"` // as the job names it
	Words  string        `json:"words"`
	Factor float64       `json:"factor"`           // over the design pressure
	Hold   unit.Duration `json:"hold_s,omitempty"` // least time at test pressure; 0: none stated
	cite.Ref
}

// Rules lists the rules that a job may name. Each figure is a row of the reference,
// TEST-0055 to TEST-0063; the code of the place and the maker's word come before all.
func Rules() []Rule {
	recalled := func(id cite.ID, place string) cite.Ref { return cite.Ref{Source: id, Place: place, How: cite.Recalled} }
	return []Rule{
		{"b31.3", "process piping", 1.1, 600, recalled("b31.3", "345.2, 345.5.4")},
		{"b31.9", "building services piping", 1.25, 600, recalled("b31.9", "937.4")},
		{"b31.1", "power piping", 1.2, 600, recalled("b31.1", "137.5")},
		{"en13480-5", "European industrial piping", 1.1, 0, recalled("en13480", "part 5")},
		{"navy", "compressed air systems ashore", 1.5, 4 * 3600, cite.Ref{Source: "navedtra-14259", Place: "chapter 11", How: cite.Read}},
	}
}

// Chosen is the rule that holds for a job, and where it comes from.
type Chosen struct {
	Rule
	From string `json:"from"` // job: its own factor; rule: one that it names; default
}

// usualHold is how long test pressure is held where no rule says (row TEST-0058).
const usualHold unit.Duration = 600

// chosen is the job's own factor, else that of the rule it names, else the default.
func chosen(j *job.Job) Chosen {
	c := Chosen{From: "default"}
	named := j.Rules.TestRule
	if named == "" {
		named = "b31.3"
	} else {
		c.From = "rule"
	}
	for _, r := range Rules() {
		if r.ID == named {
			c.Rule = r
		}
	}
	if f := j.RuleTestFactor(); f.Stated {
		c.Factor, c.From = float64(f.Value), "job"
		if j.Rules.TestRule == "" {
			c.ID, c.Words, c.Ref = "", "as this job states", cite.Ref{Source: "common-practice", Place: "the job's own figure", How: cite.Common}
		}
	}
	if c.Hold == 0 {
		c.Hold = usualHold
	}
	return c
}

// Figures of B31.3 345.5 as rows TEST-0059 and TEST-0064 have them (recalled).
const (
	firstLook     unit.GaugePressure = 170e3 // preliminary check, or half the test pressure, the lesser
	reliefOver                       = 1.1   // relief device during the test over its pressure,
	reliefOverMax unit.PressureDiff  = 345e3 // or by so much, the lesser
)

// Stage is a step on the way up.
type Stage struct {
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	Share    float64            `json:"share"` // of the test pressure
	Why      string             `json:"why"`   // look, step, test
	Hold     unit.Duration      `json:"hold_s"`
}

// stepHold is how long a stage is held to look and listen (common practice, no source).
const stepHold unit.Duration = 120

// stages are the first look and then quarters of the test pressure.
func stages(test unit.GaugePressure, hold unit.Duration) []Stage {
	look := min(firstLook, test/2)
	out := []Stage{{look, float64(look / test), "look", 600}}
	for _, share := range []float64{0.25, 0.5, 0.75} {
		if p := test * unit.GaugePressure(share); p > look {
			out = append(out, Stage{p, share, "step", stepHold})
		}
	}
	return append(out, Stage{test, 1, "test", hold})
}

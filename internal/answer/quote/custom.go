package quote

import (
	"slices"

	"dropleg/internal/shop/job"
)

// time is what one thing takes, in minutes: common practice without a source, for work
// from a ladder with the tool at hand; an installer puts in their own.
type time struct {
	what    string
	words   string
	minutes float64
}

// The times that hold where the job states none, in the order of a quotation.
var usual = []time{
	{"thread", "threaded joints", 9},
	{"straight-thread", "joints with straight thread and seal", 6},
	{"compression", "compression joints", 6},
	{"collet", "collet joints", 5},
	{"push-in", "push-in joints", 2.5},
	{"press", "pressed joints", 3.5},
	{"insert", "joints with insert and ring", 4},
	{"solder", "soldered joints", 10},
	{"braze", "brazed joints", 15},
	{"cement", "cemented joints", 6},
	{"socket", "quick couplings plugged in", 0.5},
	{"fusion", "fused joints", 9},
	{otherJoint, "joints of another kind", 8},
	{Metre, "line measured, cut and hung, by the metre", 5},
	{Support, "clips and hangers", 5},
	{Outlet, "outlets fixed, labelled and tried", 15},
	{Plant, "parts of the plant set and connected", 30},
}

// What else takes time, beside ways of joining.
const (
	otherJoint = job.LabourAnyJoint
	Metre      = job.LabourMetre
	Support    = job.LabourSupport
	Outlet     = job.LabourOutlet
	Plant      = job.LabourPlant
)

// Kinds lists what time can be stated for.
func Kinds() []string {
	var out []string
	for _, t := range usual {
		out = append(out, t.what)
	}
	return out
}

// find is the row of a kind; that of any joint where it has none.
func find(list []time, what string) int {
	if i := slices.IndexFunc(list, func(t time) bool { return t.what == what }); i >= 0 {
		return i
	}
	return slices.IndexFunc(list, func(t time) bool { return t.what == otherJoint })
}

// Minutes is the time that one piece of a kind of work takes: as the job states, else as
// is usual; what is no kind of the table counts as any joint.
func Minutes(j *job.Job, what string) float64 {
	minutes, _ := usual[find(usual, what)].in(j)
	return minutes
}

// in is the time that holds in a job, and whether that is the usual one.
func (t *time) in(j *job.Job) (minutes float64, isUsual bool) {
	if j.Prices.Labour != nil {
		for _, own := range j.Prices.Labour.Minutes {
			if own.For == t.what {
				return own.Minutes, false
			}
		}
	}
	return t.minutes, true
}

package cli

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// flow gives pressures and flows for one set of running tools.
func (c *call) flow() *cobra.Command {
	var set string
	var tools []string
	var full bool
	cmd := &cobra.Command{
		Use:   "flow JOB [--set NAME | --tool TOOL@OUTLET …]",
		Short: "pressures from the receiver to the tools, step by step",
		Long: `For a set of tools that run together: what each gets, and where the pressure goes on the
way. Without --set or --tool the worst set that is still plausible. Everything counts at
cut-in, with filters as loaded as they get; --full counts at cut-out, clean.
Status 1 where a running tool has less than it needs.`,
		Example: `  dropleg flow shop.json
  dropleg flow shop.json --set "two sanders"
  dropleg flow shop.json --tool sander@far-bench --tool blow-gun@door --json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			if set != "" && len(tools) > 0 {
				return misused("flow: read both --set and --tool; wanted one of them")
			}
			if len(tools) > 0 {
				if j, set, err = withAsked(j, tools); err != nil {
					return err
				}
			}
			answer, err := study.Of(j, catalog.Builtin()).Flow(contextOf(cmd))
			if err != nil {
				return err
			}
			i, err := chooseSet(answer, set)
			if err != nil {
				return err
			}
			return c.writeFlow(j, answer, i, full)
		},
	}
	cmd.Flags().StringVar(&set, "set", "", "a set by its name or id; \"worst\" for the worst")
	cmd.Flags().StringArrayVar(&tools, "tool", nil, "a tool in use at an outlet, TOOL or TOOL@OUTLET; may be repeated")
	cmd.Flags().BoolVar(&full, "full", false, "at cut-out and clean instead of cut-in and loaded")
	return cmd
}

// askedID is the set that --tool makes; no job can hold it, since it has no dot.
const askedID job.ID = "asked"

// withAsked is the job with the tools asked for as a named set.
func withAsked(j *job.Job, tools []string) (*job.Job, string, error) {
	ix := job.NewIndex(j)
	asked := job.Set{ID: askedID, Name: "the tools asked for"}
	var problems []document.Problem
	for _, word := range tools {
		use, problem := inUse(j, ix, word)
		if problem != nil {
			problems = append(problems, *problem)
			continue
		}
		asked.Running = append(asked.Running, use)
	}
	if len(problems) > 0 {
		return nil, "", &badInput{"flow --tool", problems}
	}
	copied := *j
	copied.Work.Sets = append(slices.Clone(j.Work.Sets), asked)
	return &copied, string(askedID), nil
}

// inUse reads TOOL or TOOL@OUTLET; without an outlet it is the tool's first.
func inUse(j *job.Job, ix *job.Index, word string) (job.InUse, *document.Problem) {
	toolWord, outletWord, at := strings.Cut(word, "@")
	var tools, outlets []string
	for i := range j.Tools {
		tools = append(tools, short(j.Tools[i].ID))
	}
	for i := range j.Outlets {
		outlets = append(outlets, short(j.Outlets[i].ID))
	}
	t := ix.Tool(job.ID("tool." + strings.TrimPrefix(toolWord, "tool.")))
	if t == nil {
		return job.InUse{}, &document.Problem{
			Path: word, Read: quote(toolWord), Want: "a tool of the job: " + strings.Join(tools, ", "), Nearest: unit.Nearest(toolWord, tools),
		}
	}
	if at {
		o := ix.Outlet(job.ID("outlet." + strings.TrimPrefix(outletWord, "outlet.")))
		if o == nil {
			return job.InUse{}, &document.Problem{
				Path: word, Read: quote(outletWord), Want: "an outlet of the job: " + strings.Join(outlets, ", "), Nearest: unit.Nearest(outletWord, outlets),
			}
		}
		return job.InUse{Tool: t.ID, Outlet: o.ID}, nil
	}
	for i := range j.Outlets {
		if slices.Contains(j.Outlets[i].Tools, t.ID) {
			return job.InUse{Tool: t.ID, Outlet: j.Outlets[i].ID}, nil
		}
	}
	return job.InUse{}, &document.Problem{
		Path: word, Read: quote(word) + ", which is used at no outlet", Want: "TOOL@OUTLET, an outlet of " + strings.Join(outlets, ", "),
	}
}

// chooseSet finds a set of the answer by name or id; "" and "worst" are the worst.
func chooseSet(a *flow.Answer, word string) (int, error) {
	if word == "" || word == "worst" {
		if a.Worst >= 0 {
			return a.Worst, nil
		}
		if len(a.Sets) > 0 {
			return 0, nil
		}
		return 0, unusable("flow", "a job in which no tool is used at an outlet", "a tool at an outlet, or a named set")
	}
	var names []string
	for i := range a.Sets {
		s := &a.Sets[i]
		if strings.EqualFold(word, s.Name) || s.ID != "" && (word == string(s.ID) || word == short(s.ID)) {
			return i, nil
		}
		names = append(names, s.Name)
	}
	return 0, &badInput{"flow", []document.Problem{{
		Path: "--set", Read: quote(word), Want: "one of the sets " + strings.Join(names, ", "), Nearest: unit.Nearest(word, names),
	}}}
}

// flowAnswer is what --json writes.
type flowAnswer struct {
	Title       string             `json:"title"`
	Atmosphere  unit.AbsPressure   `json:"atmosphere_Pa_abs"`
	At          string             `json:"at"` // "cut-in" or "cut-out"
	Set         flow.Set           `json:"set"`
	Assumptions []model.Assumption `json:"assumptions"`
	Findings    []job.Finding      `json:"findings"`
}

// writeFlow writes one set; tools without their pressure are a design that falls short.
func (c *call) writeFlow(j *job.Job, a *flow.Answer, set int, full bool) error {
	s := &a.Sets[set]
	state, at := &s.CutIn, "cut-in"
	if full {
		state, at = &s.CutOut, "cut-out"
	}
	if c.json {
		out := flowAnswer{j.Title, a.Atmosphere, at, *s, a.Assumptions, a.Findings}
		if out.Assumptions == nil {
			out.Assumptions = []model.Assumption{}
		}
		if out.Findings == nil {
			out.Findings = []job.Finding{}
		}
		if err := c.writeJSON(out); err != nil {
			return err
		}
	} else {
		system, err := c.system(j.Site.Units)
		if err != nil {
			return err
		}
		page := &flowPage{
			paper: c.paper(), job: j, index: job.NewIndex(j), system: system,
			env: unit.Env{Atmosphere: a.Atmosphere}, set: s, state: state, at: at,
		}
		page.write(a)
		if err := c.writeAll(page.bytes()); err != nil {
			return err
		}
	}
	if !state.Solved || slices.ContainsFunc(state.Tools, func(t flow.Tool) bool { return !t.Known || t.Margin < 0 }) {
		return errShort
	}
	return nil
}

package find

import (
	"slices"
	"strings"
	"unicode"

	"dropleg/internal/shop/job"
)

// Understood is what was taken from a complaint.
type Understood struct {
	Tools   []job.ID    `json:"tools,omitempty"`
	Outlets []job.ID    `json:"outlets,omitempty"`
	Running []job.InUse `json:"running,omitempty"`
	Words   string      `json:"words"`
}

// Complain takes what somebody says of the shop: names of tools and outlets, words of
// them, or TOOL@OUTLET by their ids. The set of tools found is the first that is asked
// to run; an earlier complaint is forgotten.
func (f *Finder) Complain(text string) Understood {
	f.sets, f.first = f.usual, nil
	if use, ok := f.byID(text); ok {
		return f.heed(Understood{Tools: []job.ID{use.Tool}, Outlets: []job.ID{use.Outlet}, Running: []job.InUse{use}})
	}
	heard := wordsOf(text)
	j := f.study.Job()
	u := Understood{}
	for i := range j.Tools {
		if t := &j.Tools[i]; f.usedSomewhere(t.ID) && means(heard, t.Name, string(t.ID)) {
			u.Tools = append(u.Tools, t.ID)
		}
	}
	// Who suffers is spoken of first, who makes it suffer after that.
	slices.SortStableFunc(u.Tools, func(a, b job.ID) int { return f.saidAt(heard, a) - f.saidAt(heard, b) })
	u.Outlets = f.outletsIn(heard)
	for _, tool := range u.Tools {
		if use := f.use(tool, u.Outlets); use.Outlet != "" && !slices.ContainsFunc(u.Running, func(o job.InUse) bool { return o.Outlet == use.Outlet }) {
			u.Running = append(u.Running, use)
		}
	}
	for _, o := range u.Outlets {
		taken := slices.ContainsFunc(u.Running, func(r job.InUse) bool { return r.Outlet == o })
		if out := f.study.Index().Outlet(o); !taken && len(out.Tools) > 0 {
			u.Running = append(u.Running, job.InUse{Tool: out.Tools[0], Outlet: o})
		}
	}
	if len(u.Running) == 0 {
		u.Words = "No tool or outlet of this shop was understood from that; begin with the readings proposed."
		return u
	}
	return f.heed(u)
}

// heed makes what was understood the first thing to look at.
func (f *Finder) heed(u Understood) Understood {
	u.Words = "Understood: it is about " + f.ran(u.Running) + "."
	f.sets = slices.Insert(slices.Clone(f.usual), 0, u.Running)
	f.first = &u
	return u
}

// byID reads TOOL@OUTLET.
func (f *Finder) byID(text string) (job.InUse, bool) {
	tool, outlet, _ := strings.Cut(strings.TrimSpace(text), "@")
	use := job.InUse{Tool: job.ID(tool), Outlet: job.ID(outlet)}
	_, ok := f.rig.m.PairOf(use)
	return use, ok
}

// saidAt is where in what was heard a tool is spoken of by a word of its name;
// the end where by what it does.
func (f *Finder) saidAt(heard []string, tool job.ID) int {
	words := wordsOf(f.study.Index().Tool(tool).Name)
	if i := slices.IndexFunc(heard, func(w string) bool { return slices.Contains(words, w) }); i >= 0 {
		return i
	}
	return len(heard)
}

func (f *Finder) usedSomewhere(tool job.ID) bool { return firstOutlet(f.study.Job(), tool) != "" }

// outletsIn are the outlets whose names share the most words with what was
// heard: "far bench" is not "bench".
func (f *Finder) outletsIn(heard []string) []job.ID {
	var out []job.ID
	taken := map[string]bool{}
	j := f.study.Job()
	order := make([]int, len(j.Outlets))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return len(wordsOf(j.Outlets[b].Name)) - len(wordsOf(j.Outlets[a].Name))
	})
	for _, i := range order {
		words := wordsOf(j.Outlets[i].Name)
		free := slices.ContainsFunc(words, func(w string) bool { return !taken[w] })
		if len(words) == 0 || !free || !all(words, heard) {
			continue
		}
		for _, w := range words {
			taken[w] = true
		}
		out = append(out, j.Outlets[i].ID)
	}
	return out
}

// use is a tool at the outlet spoken of, else at its first.
func (f *Finder) use(tool job.ID, outlets []job.ID) job.InUse {
	for _, o := range outlets {
		if slices.Contains(f.study.Index().Outlet(o).Tools, tool) {
			return job.InUse{Tool: tool, Outlet: o}
		}
	}
	for i := range f.study.Job().Outlets {
		o := &f.study.Job().Outlets[i]
		if slices.Contains(o.Tools, tool) && !slices.Contains(outlets, o.ID) {
			return job.InUse{Tool: tool, Outlet: o.ID}
		}
	}
	return job.InUse{Tool: tool, Outlet: firstOutlet(f.study.Job(), tool)}
}

// means says whether a tool is spoken of: the last word of what it is (the sander, of
// "dual-action sander 6 in, with dust bag"), or what people do with it.
func means(heard []string, name, id string) bool {
	words := wordsOf(bare(name))
	if len(words) == 0 {
		words = wordsOf(strings.ReplaceAll(id, ".", " "))
	}
	last := words[len(words)-1]
	if last != "gun" && last != "tool" && slices.Contains(heard, last) || all(words, heard) {
		return true
	}
	return slices.Contains(words, "blow") && has(heard, "blows", "blowing", "blow") ||
		slices.Contains(words, "spray") && has(heard, "spray", "sprays", "spraying", "paint", "paints", "painting", "painter")
}

// bare is a name without what its maker or the catalogue tells behind it: from the first
// comma, or from the first figure that is not its beginning.
func bare(name string) string {
	name, _, _ = strings.Cut(name, ",")
	for i, r := range name {
		if i > 0 && unicode.IsDigit(r) && name[i-1] == ' ' {
			return name[:i]
		}
	}
	return name
}

func has(heard []string, any ...string) bool {
	return slices.ContainsFunc(any, func(w string) bool { return slices.Contains(heard, w) })
}

func all(words, heard []string) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(heard, w) })
}

// wordsOf parts a text into words in small letters, without what says nothing.
func wordsOf(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return slices.DeleteFunc(words, func(w string) bool { return w == "the" || w == "a" || w == "at" || w == "of" || w == "in" })
}

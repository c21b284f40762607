package extend

import (
	"fmt"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// Wish is what is to be added: an outlet at a place, a compressor, or both.
type Wish struct {
	At   *fit.Place `json:"at,omitempty" doc:"where the outlet is to hang"`
	Name string     `json:"name,omitempty" doc:"of the outlet; left out, that of the tool"`
	Tool string     `json:"tool,omitempty" doc:"a tool of the job by its id, or a class of the catalogue; left out, the outlet is for later"`
	Like job.ID     `json:"like,omitempty" doc:"the outlet whose parts and hose the new one gets; left out, the nearest with a hose"`
	// Machine is the class of another compressor: with an outlet it stands in place of the one
	// that delivers least, by itself there or beside it.
	Machine string `json:"machine,omitempty" doc:"a class of compressor: in place of the one that delivers least, and without an outlet also beside it"`

	System unit.System `json:"-"`
}

// Check refuses what says nothing or what nobody knows: words that are wrong, whatever the job
// can bear.
func (w *Wish) Check(ix *job.Index, shelf *catalog.Catalog) error {
	switch {
	case w.At == nil && (w.Tool != "" || w.Name != "" || w.Like != ""):
		return refuse("no-place", "at", "it is not said where the outlet is to hang", "give its place: x, y and z, or a wall with along and up")
	case w.At == nil && w.Machine == "":
		return refuse("nothing-to-add", "at", "nothing is to be added", "say where an outlet is to hang, or which compressor is to come")
	}
	if w.Machine != "" {
		if _, ok := shelf.Machine(w.Machine); !ok {
			return refuse("unknown-machine", "machine", fmt.Sprintf("the catalogue has no compressor %q", w.Machine), nearest(shelf, catalog.Machines, w.Machine))
		}
	}
	if w.Tool != "" && ix.Tool(job.ID(w.Tool)) == nil {
		if _, ok := shelf.Tool(w.Tool); !ok {
			return refuse("unknown-tool", "tool", fmt.Sprintf("neither the job nor the catalogue has a tool %q", w.Tool), nearest(shelf, catalog.Tools, w.Tool))
		}
	}
	if w.Like != "" && ix.Outlet(w.Like) == nil {
		var known []string
		for i := range ix.Job().Outlets {
			known = append(known, string(ix.Job().Outlets[i].ID))
		}
		return refuse("unknown-outlet", "like", fmt.Sprintf("the job has no outlet %q", w.Like), "the nearest is "+unit.Nearest(string(w.Like), known))
	}
	if w.At != nil {
		return w.At.Check(ix, "at")
	}
	return nil
}

// begins refuses an outlet where no line stands that it could be laid from.
func (w *Wish) begins(ix *job.Index) error {
	if w.At != nil && !slices.ContainsFunc(ix.Job().Outlets, func(o job.Outlet) bool { return len(ix.Ends(o.Point)) > 0 }) {
		return refuse("nothing-stands", "outlets", "no outlet has a line yet", "have the shop laid out first; extending begins at lines that stand")
	}
	return nil
}

func nearest(shelf *catalog.Catalog, shelfName, word string) string {
	if near := shelf.Nearest(shelfName, word); near != "" {
		return "the nearest is " + near
	}
	return ""
}

// refuse is a refusal with one finding.
func refuse(code, path, read, want string) error {
	title := read
	if want != "" {
		title += "; " + want
	}
	return &job.Refusal{Findings: []job.Finding{{
		Code: code, Severity: job.Fault, Title: capital(title) + ".", Why: "Without it nothing can be added.", Path: path, Read: read, Want: want,
	}}}
}

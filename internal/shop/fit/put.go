package fit

import (
	"bytes"
	"encoding/json"
	"fmt"

	"dropleg/engine/document"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Put adds a thing of any kind under a fresh id made from its name: the gesture
// "put", for tools, sets, offers and whatever else needs no place.
type Put struct {
	did
	What  string          `json:"what" doc:"the word that its id begins with: tool, set, zone, plan, …"`
	Thing json.RawMessage `json:"thing" doc:"as in the file, without id"`
	To    job.ID          `json:"to,omitempty" doc:"the outlet, for a hose or a hanging part"`
}

// Edit adds the thing.
func (g *Put) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	raw := bytes.TrimSpace(g.Thing)
	if len(raw) < 2 || raw[0] != '{' || !json.Valid(raw) {
		return nil, nil, refuse("no-thing", "thing", brief(string(raw))+" is no thing", "give an object in { }, as in the file but without id")
	}
	if _, has := document.Keys(raw, "id"); has != nil {
		return nil, nil, refuse("id-given", "thing.id", "the id is made here from the name", "leave id out, or use the edit add")
	}
	name := ""
	for _, key := range []string{"name", "item", "kind"} {
		if name != "" {
			break
		}
		if _, word := document.Keys(raw, key); word != nil {
			if err := json.Unmarshal(word, &name); err != nil {
				name = "" // told by the edit, which reads it strictly
			}
		}
	}
	id := ix.FreshID(idOf(g.What, name, "1"))
	whole := fmt.Appendf(nil, `{"id":%q`, id)
	if inner := bytes.TrimSpace(raw[1 : len(raw)-1]); len(inner) > 0 {
		whole = append(append(whole, ','), inner...)
	}
	title := "added a " + g.What
	if name != "" {
		title = fmt.Sprintf("added %s %q", g.What, name)
	}
	e, err := fits(job.AllOf(title, &job.Add{What: g.What, Thing: append(whole, '}'), To: g.To}), ix)
	return e, []job.ID{id}, err
}

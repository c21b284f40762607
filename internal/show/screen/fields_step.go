package screen

import (
	"encoding/json"
	"strings"

	"dropleg/internal/shop/job"
)

// stepOf is the step that states a value. Lines change their stock and size with
// what joins them, and things stand or are planned together with their fittings:
// those are gestures.
func (s *Shop) stepOf(p *place, f *Field, value json.RawMessage, words string) json.RawMessage {
	gesture := func(do string, more map[string]any) json.RawMessage {
		more["do"] = do
		raw, _ := json.Marshal(more) // texts
		return raw
	}
	switch key := p.Of + "." + p.Key; {
	case (key == "Run.stock" || key == "Run.size") && string(value) != "null":
		return gesture("stock", map[string]any{"runs": []job.ID{p.id}, p.Key: value})
	case (key == "Run.state" || key == "Point.state") && string(value) != "null":
		return gesture("state", map[string]any{"ids": []job.ID{p.id}, "state": value})
	}
	change := &job.Change{ID: p.id, Key: p.key, Value: value}
	if string(value) == "null" && p.Gap != "" {
		// Nothing is to be made on the way to what is left out.
		change.Key = strings.TrimPrefix(p.Gap, p.sec.base)
		if p.sec.own == "" {
			change.Key = p.Gap
		}
	}
	if p.id == TheJob {
		change.ID = ""
	}
	raw, _ := titled(s.titleOf(p, f, value, words), change).MarshalJSON() // made here: an object
	return raw
}

// titleOf says for the history what was stated.
func (s *Shop) titleOf(p *place, f *Field, value json.RawMessage, words string) string {
	of := ""
	if p.id != TheJob {
		of = " of " + s.named(p.id)
	}
	what := lower(strings.TrimSuffix(f.Words, "?"))
	if string(value) == "null" || words == "" {
		return "took away " + what + of
	}
	return what + of + ": " + clipped(words)
}

package cite

import (
	_ "embed"
	"encoding/json"
	"strings"
	"sync"
)

// ID names a source: "iso1217", "b36.10".
type ID string

// How says how a figure came from its source.
type How string

// The ways a figure can have come.
const (
	Read     How = "read"     // seen in the publication or a faithful reproduction
	Recalled How = "recalled" // from memory, not seen again; never decides a test
	Computed How = "computed" // worked here from the source's equation
	Common   How = "common"   // common practice of the trade, no source
)

// Source is one publication.
type Source struct {
	ID        ID     `json:"id"`
	Title     string `json:"title"`
	Publisher string `json:"publisher,omitempty"` // who published it, or the journal
	Edition   string `json:"edition,omitempty"`   // edition, volume or part
	Year      int    `json:"year,omitempty"`      // 0: unknown or of all years
	How       How    `json:"how"`                 // how most of its figures came; the note names the others
	Note      string `json:"note,omitempty"`
}

// Ref points at a place in a source.
type Ref struct {
	Source ID     `json:"source"`
	Place  string `json:"place,omitempty"` // clause, table or equation
	How    How    `json:"how,omitempty"`   // how this figure came; "" as the source says
}

//go:embed sources.json
var sourcesJSON []byte

// table is the bibliography in the order of the file, which is that of the ids.
var table = sync.OnceValue(func() []Source {
	var all []Source
	if err := json.Unmarshal(sourcesJSON, &all); err != nil {
		panic("cite: the embedded table cannot be read: " + err.Error())
	}
	return all
})

// byID indexes the table.
var byID = sync.OnceValue(func() map[ID]Source {
	index := make(map[ID]Source, len(table()))
	for _, s := range table() {
		index[s.ID] = s
	}
	return index
})

// All lists every source, sorted by id.
func All() []Source { return append([]Source(nil), table()...) }

// Lookup finds a source by its id.
func Lookup(id ID) (Source, bool) {
	s, ok := byID()[id]
	return s, ok
}

// Text is the reference in words, with "(recalled)" or the like where the
// figure was not read in the source: "ISO 6358-1:2013, eq. 3". An unknown id
// stands as it is, so that nothing is lost.
func (r Ref) Text() string {
	s, ok := Lookup(r.Source)
	title := s.Title
	if !ok {
		title, s.How = string(r.Source), Read
	}
	parts := []string{title}
	if r.Place != "" {
		parts = append(parts, r.Place)
	}
	text := strings.Join(parts, ", ")
	how := r.How
	if how == "" {
		how = s.How
	}
	switch how {
	case Recalled:
		return text + " (recalled)"
	case Computed:
		return text + " (computed)"
	}
	return text
}

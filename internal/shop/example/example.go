package example

import (
	"embed"
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"sync"

	"dropleg/engine/unit"
)

//go:embed data/*.json
var data embed.FS

// Example is one example job.
type Example struct {
	Name  string // "boat-shop"
	Title string // of its job
}

// names lists the examples, the one to begin with first.
func names() []string {
	return []string{"boat-shop", "frame-garage", "ring-main", "ailing"}
}

// listed is the list with the titles that stand in the files.
var listed = sync.OnceValue(func() []Example {
	var all []Example
	for _, name := range names() {
		var head struct {
			Title string `json:"title"`
		}
		raw, ok := Read(name)
		if err := json.Unmarshal(raw, &head); !ok || err != nil {
			panic(fmt.Sprintf("example %s: built in, yet not to be read: %v", name, err))
		}
		all = append(all, Example{Name: name, Title: head.Title})
	}
	return all
})

// All lists the examples, always in the same order.
func All() []Example { return slices.Clone(listed()) }

// Read gives an example's job file; ok is false where there is none of the name.
func Read(name string) (file []byte, ok bool) {
	if !slices.Contains(names(), name) {
		return nil, false
	}
	file, err := data.ReadFile(path.Join("data", name+".json"))
	return file, err == nil
}

// Nearest is the name of an example that is most like the one read; "" where
// none comes near.
func Nearest(name string) string { return unit.Nearest(name, names()) }

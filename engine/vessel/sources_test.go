package vessel

import (
	"testing"

	"dropleg/engine/cite"
)

func TestSourcesExist(t *testing.T) {
	for _, f := range Formulas() {
		if len(f.Cite) == 0 {
			t.Errorf("%s: no source", f.Name)
		}
		for _, r := range f.Cite {
			if _, ok := cite.Lookup(r.Source); !ok {
				t.Errorf("%s: source %q is not in the bibliography", f.Name, r.Source)
			}
		}
	}
}

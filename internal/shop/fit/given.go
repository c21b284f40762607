package fit

import (
	"bytes"

	"dropleg/engine/document"
	"dropleg/internal/shop/job"
)

// Hose is a hose to be plugged in. Its id may be left out: the one that hangs there
// keeps its own, a new one gets one.
type Hose job.Hose

// ReadDocument reads a hose strictly.
func (h *Hose) ReadDocument(raw []byte) []document.Problem {
	return document.Decode(withKey(raw, "id"), (*job.Hose)(h))
}

// Figures are what one part has stated, as in the file; its kind is said beside them.
type Figures job.Part

// ReadDocument reads figures strictly.
func (f *Figures) ReadDocument(raw []byte) []document.Problem {
	return document.Decode(withKey(raw, "kind"), (*job.Part)(f))
}

// withKey gives an object an empty text at a key that it does not have.
func withKey(raw []byte, key string) []byte {
	raw = bytes.TrimSpace(raw)
	keys, value := document.Keys(raw, key)
	if value != nil || len(raw) == 0 || raw[0] != '{' {
		return raw
	}
	head := `{"` + key + `":""`
	if len(keys) > 0 {
		head += ","
	}
	return append([]byte(head), raw[1:]...)
}

package server

import (
	"encoding/json"
	"net/http"
	"sync"
)

// linesType is one JSON to the line.
const linesType = "application/x-ndjson"

// lines begins an answer of one JSON to the line; say writes one at once, from any goroutine.
func lines[T any](w http.ResponseWriter) (say func(T)) {
	w.Header().Set("Content-Type", linesType)
	w.Header().Set("Cache-Control", "no-store")
	var mu sync.Mutex
	return func(line T) {
		mu.Lock()
		defer mu.Unlock()
		if text, err := json.Marshal(line); err == nil {
			_, _ = w.Write(append(text, '\n'))        // the reader has gone: nobody to tell
			_ = http.NewResponseController(w).Flush() // likewise
		}
	}
}

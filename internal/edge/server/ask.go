package server

import (
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/shop/model"
	"dropleg/internal/show/screen"
)

// query reads the parameters of a request and gathers everything wrong with them.
type query struct {
	values url.Values
	wrong  []string
}

func (q *query) complain(key, read string, words []string) {
	text := fmt.Sprintf("%s: read %q, want one of %s", key, clip(read), strings.Join(words, ", "))
	if near := unit.Nearest(read, words); near != "" {
		text += "; nearest is " + near
	}
	q.wrong = append(q.wrong, text)
}

// word reads one of a list of words; absent is "".
func (q *query) word(key string, words ...string) string {
	read := q.values.Get(key)
	for _, w := range words {
		if read == w {
			return read
		}
	}
	if read != "" {
		q.complain(key, read, words)
	}
	return ""
}

// millimetres reads a size of paper.
func (q *query) millimetres(key string, otherwise float64) float64 {
	read := q.values.Get(key)
	if read == "" {
		return otherwise
	}
	v, err := strconv.ParseFloat(read, 64)
	if err != nil || !(v >= 1 && v <= 5000) {
		q.wrong = append(q.wrong, fmt.Sprintf("%s: read %q, want millimetres of paper, 1 to 5000", key, clip(read)))
		return otherwise
	}
	return v
}

// whole reads a whole number above nought, or 0 where it is so otherwise.
func (q *query) whole(key string, otherwise int) int {
	read := q.values.Get(key)
	if read == "" {
		return otherwise
	}
	v, err := strconv.Atoi(read)
	if err != nil || v < 0 || v > math.MaxInt32 {
		q.wrong = append(q.wrong, fmt.Sprintf("%s: read %q, want a whole number", key, clip(read)))
		return otherwise
	}
	return v
}

// readAsk reads which set, end of the band and units are asked for.
func readAsk(r *http.Request) (screen.Ask, *query) {
	q := &query{values: r.URL.Query()}
	return screen.Ask{
		Set:    q.values.Get("set"),
		Case:   model.Supply(q.word("case", string(model.CutIn), string(model.CutOut))),
		System: unit.System(q.word("units", systemWords()...)),
		Now:    time.Now(),
	}, q
}

func systemWords() []string {
	words := make([]string, 0, len(unit.Systems()))
	for _, s := range unit.Systems() {
		words = append(words, string(s))
	}
	return words
}

package server

import (
	"net/http"
	"slices"
	"strings"
	"testing"
)

// What comes again under its key is answered as it was, and made once.
func TestSentAgain(t *testing.T) {
	s := served(t)
	const look = "?view=plan&w=300&h=200"
	for i, c := range []struct{ path, body string }{
		{"/steps", `{"base":0,"by":"Ann","key":"a1","step":{"edit":"add","what":"tool","thing":{"id":"tool.new","name":"new"}}}`},
		{"/steps", `{"base":1,"by":"Ann","key":"a2","step":{"edit":"set","id":"hose.d","key":"length_m","value":9}}`},
		{"/undo", `{"by":"Ann","key":"a3"}`},
		{"/undo", `{"by":"Ann","key":"a4"}`},
		{"/redo", `{"by":"Ann","key":"a5"}`},
		{"/redo", `{"by":"Ann","key":"a6"}`},
		{"/goto", `{"by":"Ann","key":"a7","revision":1}`},
	} {
		first := read200[Live](t, ask(s, "POST", of(c.path+look), c.body))
		again := read200[Live](t, ask(s, "POST", of(c.path+look), c.body))
		if first.Revision != i+1 || again.Revision != i+1 || first.Words == "" || again.Words != first.Words ||
			!slices.Equal(again.Made, first.Made) || again.Undo != first.Undo || again.Redo != first.Redo {
			t.Errorf("%s %s: first %d %q %v, again %d %q %v", c.path, c.body,
				first.Revision, first.Words, first.Made, again.Revision, again.Words, again.Made)
		}
		if i == 0 && !slices.Equal(again.Made, []string{"tool.new"}) {
			t.Errorf("made %v", again.Made)
		}
	}
}

// An alternative is gone when its adoption comes again, which was sent while it was
// looked at: the job itself is shown. Another step in it is refused as before.
func TestAdoptedAgain(t *testing.T) {
	s := served(t)
	read200[Live](t, ask(s, "POST", of("/steps"), `{"base":0,"step":{"edit":"add","what":"plan","thing":{"id":"plan.b","name":"B","edits":[]}}}`))
	const body = `{"plan":"plan.b","base":1,"by":"Ann","key":"a1"}`
	first := read200[Live](t, ask(s, "POST", of("/adopt?plan=plan.b"), body))
	again := read200[Live](t, ask(s, "POST", of("/adopt?plan=plan.b"), body))
	if first.Revision != 2 || again.Revision != 2 || again.Words != first.Words {
		t.Errorf("first %d %q, again %d %q", first.Revision, first.Words, again.Revision, again.Words)
	}
	wantFault(t, "another", ask(s, "POST", of("/adopt?plan=plan.b"), strings.Replace(body, "a1", "a2", 1)), http.StatusNotFound)
}

func TestKeyRefused(t *testing.T) {
	s := served(t)
	for _, key := range []string{"a b", "ä", strings.Repeat("k", 65)} {
		for path, rest := range map[string]string{
			"/steps": `"base":0,"step":{"edit":"set","id":"hose.d","key":"length_m","value":9}`,
			"/undo":  `"by":"Ann"`, "/redo": `"by":"Ann"`, "/goto": `"revision":0`, "/adopt": `"plan":"plan.b"`,
		} {
			wantFault(t, path+" under "+key, ask(s, "POST", of(path), `{"key":"`+key+`",`+rest+`}`), http.StatusBadRequest, "key", "64")
		}
	}
	if j := headOf(t, s); j.Revision != 0 {
		t.Errorf("something was done: revision %d", j.Revision)
	}
}

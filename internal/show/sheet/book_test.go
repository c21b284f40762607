package sheet_test

import (
	"context"
	"testing"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
	"dropleg/internal/show/sheet"
)

func exampleJob(t testing.TB, name string) *job.Job {
	t.Helper()
	raw, ok := example.Read(name)
	if !ok {
		t.Fatalf("no example %s", name)
	}
	return parsed(t, raw)
}

func parsed(t testing.TB, raw []byte) *job.Job {
	t.Helper()
	j, found := job.Parse(raw)
	if j == nil {
		t.Fatal(found)
	}
	return j
}

func options(paper string) sheet.Options {
	p, ok := page.PaperOf(paper)
	if !ok {
		panic(paper)
	}
	return sheet.Options{Paper: p, By: "Quay Pipework", Mark: "QP", Revision: "B", Date: time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC)}
}

func maker(t testing.TB, j *job.Job, paper string) *sheet.Maker {
	t.Helper()
	judge := func(ctx context.Context, s *study.Study, system unit.System) ([]job.Finding, error) {
		return check.Run(ctx, s, system)
	}
	m, err := sheet.On(context.Background(), screen.On(study.Of(j, catalog.Builtin()), judge), options(paper))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// book is the whole job book of an example.
func book(t testing.TB, name, paper string) (*sheet.Maker, []sheet.Made, []byte) {
	t.Helper()
	m := maker(t, exampleJob(t, name), paper)
	made, err := m.Make(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	pdf, err := m.PDF(made)
	if err != nil {
		t.Fatal(err)
	}
	return m, made, pdf
}

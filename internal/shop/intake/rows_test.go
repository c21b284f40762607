package intake_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"dropleg/internal/shop/intake"
	"dropleg/internal/shop/job"
)

const head = "number;description;pack;unit;length;price;currency;supplier;date\n"

// TestWhatARowComesTo: what is taken of a row, worked out by hand from its words: a price
// each is multiplied by the pack, a price per 100 is divided, a price per metre or foot
// becomes that of the length (1 ft is 0.3048 m exactly).
func TestWhatARowComesTo(t *testing.T) {
	for _, row := range []struct {
		row    string
		price  float64
		number float64 // of the offer; 0 for an own price
		per    string
	}{
		{"1;copper-l elbow-90 3/4;;;;2.35;;;", 2.35, 0, "piece"},
		{"1;copper-l elbow-90 3/4;10;;;21.50;;Any;", 21.5, 10, ""},
		{"1;copper-l elbow-90 3/4;10;ea;;2.15;;Any;", 21.5, 10, ""},
		{"1;copper-l elbow-90 3/4;25;per 100;;198;;Any;", 49.5, 25, ""},
		{"1;copper-l elbow-90 3/4;;100;;198;;;", 1.98, 0, "piece"},
		{"1;copper-l elbow-90 3/4;10 pcs;pack;;21.50;;Any;", 21.5, 10, ""},
		{"1;copper-l 3/4;;m;;10.6;;;", 10.6, 0, "m"},
		{"1;copper-l 3/4;;ft;;30.48;;;", 100, 0, "m"},
		{"1;copper-l 3/4;;m;6 m;10;;Any;", 60, 6, ""},
		{"1;copper-l 3/4;;;20 ft;61;;Any;", 61, 6.096, ""},
		{"1;copper-l 3/4;5;length;6000 mm;58;;Any;", 58, 30, ""},
		{"1;copper-l 3/4;5;ea;6 m;58;;Any;", 290, 30, ""},
		{"1;copper-l 3/4;25 m;;;99;;Any;", 99, 25, ""},
		{"1;drain cock, 1/2\";;;;$6.20;;;", 6.2, 0, "piece"},
	} {
		in := take(t, head+row.row, intake.Ask{})
		if len(in.Lines) != 1 || in.Lines[0].State != intake.Take {
			t.Errorf("%s: %+v", row.row, in.Lines)
			continue
		}
		switch l := in.Lines[0]; {
		case row.number == 0 && (l.Price == nil || l.Price.Each != row.price || l.Price.Per != row.per):
			t.Errorf("%s: own price %+v", row.row, l.Price)
		case row.number > 0 && (l.Offer == nil || l.Offer.Price != row.price || l.Offer.Holds[0].Number != row.number):
			t.Errorf("%s: offer %+v", row.row, l.Offer)
		}
	}
}

// TestProblems: each is told with its row, column and nearest valid form, and the good
// row beside it is taken all the same.
func TestProblems(t *testing.T) {
	for _, row := range []struct{ row, code, column, nearest string }{
		{"1;drain-cock 1/2;;;;0;;;", "zero-price", "F", ""},
		{"1;drain-cock 1/2;;;;-6.20;;;", "negative-price", "F", "6.20"},
		{"1;drain-cock 1/2;;;;(6.20);;;", "negative-price", "F", "6.20"},
		{"1;drain-cock 1/2;;;;;;;", "no-price", "F", ""},
		{"1;drain-cock 1/2;;;;on request;;;", "no-number", "F", ""},
		{"1;drain-cock 1/2;;;;1,234;;;", "two-ways", "F", "1.234 1234"},
		{"1;drain-cock 1/2;;;;1.234;;;", "two-ways", "F", "1.234 1234"},
		{"1;drain-cock 1/2;;furlong;;6.20;;;", "no-unit", "D", "piece"},
		{"1;drain-cock 1/2;;peice;;6.20;;;", "no-unit", "D", "piece"},
		{"1;drain-cock 1/2;;m;;6.20;;;", "no-unit", "D", "piece"},
		{"1;drain-cock 1/2;0;;;6.20;;;", "no-pack", "C", ""},
		{"1;drain-cock 1/2;10;;;6.20;;;", "no-supplier", "H", ""},
		{"1;drain-cock 1/2;;;;€ 6.20;USD;;", "two-currencies", "G", "EUR USD"},
		{"1;drain-cock 1/2;;;;6.20;dollers;;", "no-currency", "G", ""},
		{"1;drain-cock 1/2;;;;kr 6.20;;;", "no-currency", "F", "SEK NOK DKK"},
		{"1;drain-cock 1/2;;;;6.20;;;03/04/2026", "two-ways", "I", "2026-04-03 2026-03-04"},
		{"1;drain-cock 1/2;;;;6.20;;;soon", "no-date", "I", ""},
		{"1;copper-l 3/4;;;6;64;;Any;", "no-unit", "E", "6 m"},
		{"1;copper-l 3/4;;;;64;;Any;", "no-length", "D", "m"},
		{"1;copper-l 3/4;;m;;10;;Any;", "no-length", "E", "m"},
		{";;;;;6.20;;Any;", "no-article", "B", ""},
	} {
		in := take(t, head+row.row+"\n9;copper-l elbow-90 3/4;;;;2;;;", intake.Ask{})
		if len(in.Lines) != 2 || in.Lines[0].State != intake.Fault || in.Lines[1].State != intake.Take {
			t.Errorf("%s: %+v", row.row, in.Lines)
			continue
		}
		p := in.Lines[0].Problems[0]
		if p.Row != 2 || p.Code != row.code || p.Column != row.column || !strings.Contains(strings.Join(p.Nearest, " "), row.nearest) || p.Read == "" || p.Want == "" {
			t.Errorf("%s: %+v", row.row, p)
		}
	}
}

// TestSizesAloneAreNoLikeness: what shares no word with any article is not proposed as four of
// them for its figures, or for a letter that is a litre.
func TestSizesAloneAreNoLikeness(t *testing.T) {
	in := take(t, head+"1;zzqx 3/4 flurb;;;;1;;;\n2;Blue paint RAL 5010 1 L;;;;19;;;\n3;Elbw 3/4;;;;2;;;\n4;Elbow 3/4;;;;2;;;", intake.Ask{})
	for i, l := range in.Lines[:3] {
		if l.State != intake.Unsure || len(l.Nearest) != 0 {
			t.Errorf("row %d: %+v", i+2, l)
		}
	}
	if l := in.Lines[3]; len(l.Nearest) == 0 {
		t.Errorf("row 5: %+v", l)
	}
}

// TestUnsureIsAsked: a row that is not sure is a question with proposals, and what the
// person says of it is taken.
func TestUnsureIsAsked(t *testing.T) {
	list := head + "77;Kupfer Winkel 3/4\";;;;2.35;;;\n78;garden gnome;;;;9;;;"
	in := take(t, list, intake.Ask{})
	if l := in.Lines[0]; l.State != intake.Unsure || l.Price != nil || len(l.Nearest) == 0 || l.Nearest[0].Article != "copper-l elbow-90 3/4" {
		t.Errorf("row 2: %+v", l)
	}
	if l := in.Lines[1]; l.State != intake.Unsure || len(l.Nearest) != 0 {
		t.Errorf("row 3: %+v", l)
	}
	if in.Edit(job.NewIndex(&job.Job{})) != nil {
		t.Error("an edit of rows that are not sure")
	}
	in = take(t, list, intake.Ask{Pairs: []intake.Pair{{Row: 2, Article: "copper-l elbow-90 3/4"}, {Row: 3, Article: "copper-l elbw-90 3/4"}}})
	if l := in.Lines[0]; l.State != intake.Take || l.Price.Article != "copper-l elbow-90 3/4" {
		t.Errorf("row 2: %+v", l)
	}
	if got := codes(in, 3); !slices.Equal(got, []string{"unknown-article"}) {
		t.Errorf("row 3: %v", got)
	}
}

// TestTwice: of one article twice at another price neither is taken until one is left out;
// at the same price the second is a repeat.
func TestTwice(t *testing.T) {
	list := head + "1;drain-cock 1/2;10;;;6;;Any;\n1;drain-cock 1/2;10;;;7;;Any;\n2;copper-l elbow-90 3/4;;;;2;;;\n2;copper-l elbow-90 3/4;;;;2;;;"
	in := take(t, list, intake.Ask{})
	if got := codes(in, 2); in.Count(intake.Take) != 1 || !slices.Equal(got, codes(in, 3)) || !slices.Equal(got, []string{"twice"}) || !slices.Equal(codes(in, 5), []string{"again"}) {
		t.Errorf("%+v", in.Lines)
	}
	in = take(t, list, intake.Ask{Leave: []int{2}})
	if in.Count(intake.Take) != 2 || in.Lines[1].Offer.Price != 7 {
		t.Errorf("%+v", in.Lines)
	}
}

// TestKnownAgain: a list of next year finds the offers of this one by their numbers,
// whatever their words, changes them in place, and undo brings back what was.
func TestKnownAgain(t *testing.T) {
	prices := job.Prices{
		List:   []job.Price{{Article: "drain-cock 1/2", Each: 6, Per: "piece"}},
		Offers: []job.Offer{{ID: "offer.kit", Supplier: "Any", Number: "K-1", Words: "kit", Price: 99, Holds: []job.Amount{{Article: "drain-cock 1/2", Number: 2}, {Article: "copper-l elbow-90 3/4", Number: 4}}}},
	}
	ix, shelf := shop(prices)
	list := head + "K-1;starter kit, new box;;;;105;;any;\n;drain-cock 1/2;;;;6;;;\n;copper-l elbow-90 3/4;10;;;20;;Any;"
	in, err := intake.Of(context.Background(), intake.Read([]byte(list)), intake.Ask{}, ix, shelf)
	if err != nil || in.Count(intake.Take) != 2 || in.Count(intake.Same) != 1 {
		t.Fatalf("%v, %+v", err, in.Lines)
	}
	before, _ := ix.Job().Encode()
	after, inverse, err := in.Edit(ix).Apply(ix.Job())
	if err != nil {
		t.Fatal(err)
	}
	if o := after.Prices.Offers; len(o) != 2 || o[0].ID != "offer.kit" || o[0].Price != 105 || len(o[0].Holds) != 2 || o[1].Holds[0].Number != 10 {
		t.Errorf("%+v", o)
	}
	again, err := intake.Of(context.Background(), intake.Read([]byte(list)), intake.Ask{}, job.NewIndex(after), shelf)
	if err != nil || again.Count(intake.Same) != 3 || again.Edit(job.NewIndex(after)) != nil {
		t.Errorf("the same list once more: %v, %+v", err, again.Lines)
	}
	back, _, err := inverse.Apply(after)
	if err != nil {
		t.Fatal(err)
	}
	if text, _ := back.Encode(); string(text) != string(before) {
		t.Errorf("undone it is %s, was %s", text, before)
	}
}

// TestHeads: the words over columns in the ways of counters; two that could be the price
// are asked about, and a list without heads is read as it is said to be.
func TestHeads(t *testing.T) {
	for _, list := range []string{
		"Ellery Supply, spring list\n\nItem No.,Item Description,Pack Qty,Net Price\nX1,drain-cock 1/2,1,6.20",
		"Art.-Nr.;Artikelbezeichnung;VE;Nettopreis (USD)\nX1;drain-cock 1/2;1;6,20",
		"SKU\tProduct name\tQty per pack\tUnit price $\nX1\tdrain-cock 1/2\t1\t6.20",
		"Référence;Désignation;Conditionnement;Prix unitaire HT\nX1;drain-cock 1/2;1;6,20",
	} {
		if in := take(t, list, intake.Ask{}); in.Count(intake.Take) != 1 || in.Lines[0].Price.Each != 6.2 {
			t.Errorf("%s: %+v %+v", list, in.Problems, in.Lines)
		}
	}
	list := "item;price;price\ndrain-cock 1/2;6.20;5.10"
	if in := take(t, list, intake.Ask{}); len(in.Problems) == 0 || in.Problems[0].Code != "two-columns" || in.Count(intake.Take) != 0 {
		t.Errorf("two prices: %+v", in)
	}
	if in := take(t, list, intake.Ask{Columns: []intake.Mapping{{Column: "C", Field: intake.Price}}}); in.Count(intake.Take) != 1 || in.Lines[0].Price.Each != 5.1 {
		t.Errorf("the second price: %+v", in)
	}
	bare := "drain-cock 1/2;6.20\ncopper-l elbow-90 3/4;2.35"
	if in := take(t, bare, intake.Ask{}); len(in.Problems) == 0 || in.Problems[0].Code != "no-price-column" || !strings.Contains(in.Problems[0].Want, "B=price") {
		t.Errorf("no heads: %+v", in.Problems)
	}
	if in := take(t, bare, intake.Ask{Columns: []intake.Mapping{{Column: "A", Field: intake.Ours}, {Column: "B", Field: intake.Price}}}); in.Count(intake.Take) != 2 {
		t.Errorf("said: %+v", in)
	}
}

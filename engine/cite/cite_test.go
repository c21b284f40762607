package cite

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestTable(t *testing.T) {
	all := All()
	if len(all) < 100 {
		t.Fatalf("%d sources, want the whole bibliography", len(all))
	}
	for i, s := range all {
		if i > 0 && s.ID <= all[i-1].ID {
			t.Errorf("%s stands after %s: rows are sorted by id, each once", s.ID, all[i-1].ID)
		}
		if s.ID == "" || s.Title == "" || strings.ToLower(string(s.ID)) != string(s.ID) && s.ID != "fof-fT" {
			t.Errorf("row %d %q: id in lower case and a title are wanted", i, s.ID)
		}
		if !slices.Contains([]How{Read, Recalled, Computed, Common}, s.How) {
			t.Errorf("%s: how %q is not one of the four", s.ID, s.How)
		}
		if got, ok := Lookup(s.ID); !ok || got != s {
			t.Errorf("Lookup(%s) = %v, %v", s.ID, got, ok)
		}
	}
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		ref  Ref
		want string
	}{
		{Ref{Source: "nist-sp811", Place: "B.8", How: Read}, "SP 811, guide for the use of the SI, B.8"},
		{Ref{Source: "iso8778"}, "ISO 8778, pneumatic fluid power, standard reference atmosphere (recalled)"},
		{Ref{Source: "haaland", How: Computed}, "Simple and explicit formulas for the friction factor in turbulent pipe flow (computed)"},
		{Ref{Source: "no-such-book", Place: "p. 3"}, "no-such-book, p. 3"},
	} {
		if got := c.ref.Text(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.ref, got, c.want)
		}
	}
}

// named says by which words a source column of the reference tables means
// which id. It stands in the test alone: it shows that the bibliography is whole.
var named = []struct {
	words string
	id    ID
}{
	{"A-A-59439", "a-a-59439"},
	{"A13.1", "a13.1"},
	{"ADF100", "adf100"},
	{"AS 1345", "as1345"},
	{"ASHRAE Handbook Fundamentals", "ashrae-fundamentals"},
	{"ASHRAE Fundamentals", "ashrae-fundamentals"},
	{"ASHRAE steel pipe", "ashrae-fundamentals"},
	{"B1.20.1", "b1.20.1"},
	{"B16.18", "b16.18"},
	{"B16.3", "b16.3"},
	{"B31.1", "b31.1"},
	{"B31.3", "b31.3"},
	{"B31.9", "b31.9"},
	{"B36.10", "b36.10"},
	{"PCC-2", "asme-pcc2"},
	{"ASTM B88", "astm-b88"},
	{"D2282", "astm-d2282"},
	{"D3035", "astm-d3035"},
	{"F1281", "astm-f1281"},
	{"F1282", "astm-f1282"},
	{"F442", "astm-f442"},
	{"BS 1710", "bs1710"},
	{"Binder 1973", "binder1973"},
	{"British practice", "common-practice"},
	{"CIDWT", "cidwt2008"},
	{"CSA B137.5", "csa-b137.5"},
	{"CSA B137.9", "csa-b137.9"},
	{"Copper Tube Handbook", "copper-handbook"},
	{"copper trade association", "copper-handbook"},
	{"copper-tube pressure sheet", "pipe-sheets"},
	{"DIN 1343", "din1343"},
	{"DIN 2403", "din2403"},
	{"DIN 73378", "din73378"},
	{"EN 10242", "en10242"},
	{"EN 10255", "en10255"},
	{"EN 10312", "en10312"},
	{"EN 1057", "en1057"},
	{"EN 13480", "en13480"},
	{"EN 1555", "en1555"},
	{"EN 806-4", "en806-4"},
	{"European compressed-air handbooks", "air-handbooks"},
	{"FM 5-434", "army-fm5-434"},
	{"TM 55-1930", "army-tm55-1930"},
	{"Hyland & Wexler", "hyland-wexler"},
	{"IAPWS-IF97", "iapws-if97"},
	{"IAPWS R14", "iapws-r14"},
	{"ISO 1217", "iso1217"},
	{"ISO 2398", "iso2398"},
	{"ISO 4414", "iso4414"},
	{"ISO 4427", "iso4427"},
	{"ISO 6150", "iso6150"},
	{"ISO 6358", "iso6358"},
	{"ISO 7-1", "iso7-1"},
	{"ISO 7183", "iso7183"},
	{"ISO 8573-1", "iso8573-1"},
	{"ISO 8778", "iso8778"},
	{"IS 2379", "is2379"},
	{"Illinois", "illinois-plumbing"},
	{"International Mechanical Code", "imc"},
	{"IMC section", "imc"},
	{"International Plumbing Code", "ipc"},
	{"International Residential Code", "irc"},
	{"JIS B 8390", "jis-b8390"},
	{"Lemmon & Jacobsen", "lemmon-jacobsen2004"},
	{"Lemmon, Jacobsen", "lemmon2000"},
	{"Lemmon et al. 2000", "lemmon2000"},
	{"MIL-HDBK-1028", "mil-hdbk-1028-6a"},
	{"MSS SP-", "mss-sp58"},
	{"Moss", "moss1906"},
	{"Murphy & Koop", "murphy-koop2005"},
	{"NAVEDTRA 14259", "navedtra-14259"},
	{"training manual 14259", "navedtra-14259"},
	{"NAVFAC MO-206", "navfac-mo206"},
	{"NAVFAC MO-209", "navfac-mo209"},
	{"National Plumbing Code of Canada", "npc-canada"},
	{"New Jersey", "nj-plumbing"},
	{"1910.242", "osha-1910.242"},
	{"OSHA Hazard Information", "osha-pvc1990"},
	{"OSHA memorandum", "osha-memo1991"},
	{"438451.015", "osha-citation2012"},
	{"SAE J844", "sae-j844"},
	{"tip sheet: determine the cost", "doe-tip1"},
	{"tip sheet 1", "doe-tip1"},
	{"ip Sheet 3", "doe-tip3"},
	{"tip sheet 3", "doe-tip3"},
	{"US DOE", "doe-sourcebook"},
	{"Veterans Affairs", "va-design-manual"},
	{"Standard Atmosphere", "us-std-atm"},
	{"Standard atmospheric data", "us-std-atm"},
	{"standard atmosphere", "us-std-atm"},
	{"UFC 4-390", "ufc-4-390-01"},
	{"unified facilities guide", "ufgs-15561a"},
	{"Uniform Plumbing Code", "upc"},
	{"Wagner & Pruss", "wagner-pruss"},
	{"India BEE", "bee-guidebook"},
	{"auditor training", "audit-training"},
	{"building-services institution", "cibse-guide"},
	{"building-services pump handbook", "pump-handbook"},
	{"pump handbook", "pump-handbook"},
	{"city specification", "city-spec"},
	{"city mechanical specification", "city-spec"},
	{"city gas-piping", "city-gas"},
	{"compressed-air equivalent-length", "air-elbow-lengths"},
	{"compressed-air handbook consumption", "tool-handbook"},
	{"polybutylene", "polybutylene-manual"},
	{"expansion table", "expansion-tables"},
	{"public tables: 24e-6", "expansion-tables"},
	{"facility piping systems", "facility-handbook"},
	{"fire-suppression", "fire-manual"},
	{"flow-of-fluids resistance", "fof-fT"},
	{"'Flow of air through schedule 40", "fof-steel"},
	{"flow-of-fluids handbook table", "fof-steel"},
	{"same handbook table", "fof-steel"},
	{"fluid-mechanics text", "fluid-text"},
	{"fluid-mechanics handbook", "fluid-text"},
	{"fluid-mechanics library", "fluids-library"},
	{"orifice", "orifice-table"},
	{"hose friction", "hose-chart"},
	{"instrument-air practice", "instrument-air"},
	{"laboratory consumption", "lab-reference"},
	{"laboratory outlets", "plumbing-handbooks"},
	{"machinery handbook", "machinery-handbook"},
	{"materials text", "materials-text"},
	{"mechanical engineers' handbook", "mechanical-handbook"},
	{"medical-gas", "medical-gas-code"},
	{"metric air tube", "metric-tube"},
	{"older Le/D", "old-le-d"},
	{"piping handbook", "piping-handbook"},
	{"plastic pipe installation", "pe-install"},
	{"PE pipe installation", "pe-install"},
	{"plastics pipe practice", "pe-install"},
	{"pneumatic loss chart", "loss-chart"},
	{"pneumatic coupling guide", "pneumatic-guide"},
	{"pneumatic equipment manual", "pneumatic-guide"},
	{"public trade pages", "pneumatic-guide"},
	{"roughness table", "roughness-tables"},
	{"surface-finishing guidebook", "blast-guidebook"},
	{"thermal growth", "trade-article"},
	{"trade article", "trade-article"},
	{"training text", "training-texts"},
	{"US trade training", "training-texts"},
	{"two public pipe sheets", "leg-formula"},
	{"university facilities design", "univ-design-guide"},
	{"public tables 0.002", "roughness-tables"},
	{"definition of Kv", "valve-coefficients"},
	{"common rule", "valve-coefficients"},
	{"engineering references", "valve-coefficients"},
	{"handbook", "air-handbooks"},
	{"typical of published engineering tables", "air-handbooks"},
	{"sqrt(3E/S)", "leg-formula"},
	{"pipe-leg practice", "leg-formula"},
	{"beta^2", "fluid-text"},
	{"public tube data sheet", "pipe-sheets"},
	{"public metal-plastic", "pipe-sheets"},
	{"public nipple", "pipe-sheets"},
	{"public tube technical", "pipe-sheets"},
	{"public size note", "pipe-sheets"},
	{"150 F row scaled", "copper-handbook"},
	{"table 14.8", "copper-handbook"},
	{"public worked example", "expansion-tables"},
	{"ISO 14726", "iso14726"},
	{"public comparison table", "din2403"},
	{"trade practice", "common-practice"},
	{"practice", "common-practice"},
	{"generic", "common-practice"},
	{"nominal bore by definition", "iso2398"},
	{"no dimensional standard", "common-practice"},
	{"body size differs", "common-practice"},
	{"three families", "pneumatic-guide"},
	{"do not bend", "common-practice"},
	{"estimate from bore area", "common-practice"},
}

// TestReferenceTablesAreCovered: every source that a read or recalled row of
// the reference tables names is in the bibliography. Computed rows name
// equations, which the laws themselves cite.
func TestReferenceTablesAreCovered(t *testing.T) {
	files, err := filepath.Glob("../../testdata/ref/*/*.csv")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d reference tables, %v", len(files), err)
	}
	for _, file := range files {
		for _, source := range sources(t, file) {
			id := ID("")
			for _, n := range named {
				if strings.Contains(source, n.words) {
					id = n.id
					break
				}
			}
			if _, ok := Lookup(id); !ok {
				t.Errorf("%s: source %q has no row in the bibliography (id %q)", file, source, id)
			}
		}
	}
}

// sources lists the source column of the rows that were read or recalled.
func sources(t *testing.T, file string) []string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord, r.Comment = -1, '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at, how := slices.Index(rows[0], "source"), slices.Index(rows[0], "how")
	var list []string
	for _, row := range rows[1:] {
		if row[how] != "computed" && !slices.Contains(list, row[at]) {
			list = append(list, row[at])
		}
	}
	return list
}

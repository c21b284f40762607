package intake

import (
	"slices"
	"strings"
)

// Field is what a column can be.
type Field string

// The fields.
const (
	Code     Field = "number"      // the supplier's article number
	Words    Field = "description" // in the supplier's words
	Size     Field = "size"        // stands apart from the words
	Ours     Field = "article"     // as the take-off has it
	Pack     Field = "pack"        // pieces or lengths that the price buys
	Unit     Field = "unit"        // what the price is for: piece, m, 100, pack
	Length   Field = "length"      // of one stick or coil
	Price    Field = "price"
	Currency Field = "currency"
	Supplier Field = "supplier"
	Date     Field = "date"
	Nothing  Field = "nothing" // the column is passed over
)

// Fields lists them in the order in which they are offered.
func Fields() []Field {
	return []Field{Code, Words, Size, Ours, Pack, Unit, Length, Price, Currency, Supplier, Date, Nothing}
}

// heads are the words that lists have over their columns, as counters and merchants write
// them: common practice, no source. They are folded: small letters, no marks.
var heads = map[Field][]string{
	Code: {
		"article number", "article no", "article nr", "article id", "art no", "art nr", "item number", "item no", "item nr", "item code", "item id", "part number", "part no", "p n", "pn",
		"sku", "code", "catalogue number", "catalog number", "cat no", "order number", "order no", "order code", "stock code", "stock number", "product code", "product number", "ref", "reference", "number", "no", "mpn",
		"artikelnummer", "artikelnr", "artikel nr", "artikel nummer", "bestellnummer", "bestellnr", "bestell nr", "teilenummer", "nummer", "nr", "référence", "code article", "n article", "artikelkod", "artnr", "referencia", "código", "codice", "codice articolo",
	},
	Words: {
		"description", "item description", "product description", "product", "product name", "name", "item", "what", "goods", "text", "details", "material", "part", "title",
		"bezeichnung", "beschreibung", "artikelbezeichnung", "artikel", "artikeltext", "kurztext", "produkt", "désignation", "libellé", "description article", "descripción", "descrizione", "omschrijving", "benämning", "beskrivning",
	},
	Size: {
		"size", "sizes", "nominal size", "pipe size", "tube size", "dimension", "dimensions", "dim", "dn", "diameter", "dia", "od", "outside diameter",
		"größe", "abmessung", "abmessungen", "maß", "nennweite", "durchmesser", "taille", "diamètre", "medida", "misura", "maat", "dimensión", "storlek",
	},
	Ours: {"our article", "our item", "our key", "our name", "take off article", "takeoff article", "dropleg article", "article", "article key", "key"},
	Pack: {
		"pack", "pack size", "pack qty", "pack quantity", "packing", "packaging", "package", "qty", "quantity", "qty per pack", "pieces per pack", "pcs per pack", "pcs", "pieces", "pack of", "box", "box qty", "bag", "bundle", "case qty", "content", "contents", "standard pack", "min qty", "order multiple",
		"ve", "vpe", "verpackungseinheit", "packung", "packungsgröße", "inhalt", "menge", "stück", "stückzahl", "anzahl", "gebinde", "conditionnement", "quantité", "qté", "cantidad", "quantità", "aantal", "antal", "förpackning",
	},
	Unit: {
		"unit", "units", "uom", "u m", "um", "unit of measure", "measure", "sold by", "sold per", "price per", "per", "price unit", "basis", "price basis",
		"einheit", "me", "mengeneinheit", "preiseinheit", "pe", "per einheit", "unité", "unidad", "unità", "eenheid", "enhet",
	},
	Length: {
		"length", "stick length", "coil length", "roll length", "bar length", "length each", "tube length", "pipe length", "stock length", "lengths", "len",
		"länge", "stangenlänge", "rollenlänge", "ringlänge", "lieferlänge", "longueur", "longitud", "lunghezza", "lengte", "längd",
	},
	Price: {
		"price", "unit price", "price each", "each", "list price", "net price", "net", "cost", "your price", "trade price", "nett", "nett price", "amount", "rate", "price net", "sell price", "selling price",
		"preis", "nettopreis", "listenpreis", "einzelpreis", "stückpreis", "preis netto", "ek", "ek preis", "vk", "vk preis", "prix", "prix unitaire", "prix net", "prix ht", "tarif", "precio", "prezzo", "prijs", "pris",
	},
	Currency: {"currency", "cur", "curr", "ccy", "währung", "whg", "devise", "monnaie", "moneda", "divisa", "valuta"},
	Supplier: {"supplier", "vendor", "seller", "merchant", "shop", "store", "dealer", "counter", "sold at", "lieferant", "händler", "anbieter", "fournisseur", "proveedor", "fornitore", "leverancier", "leverantör"},
	Date: {
		"date", "price date", "valid from", "as of", "effective", "effective date", "dated", "updated", "last updated",
		"datum", "preisdatum", "stand", "gültig ab", "preisstand", "date du prix", "date prix", "fecha", "data", "ab datum",
	},
}

// each are the heads of prices that are for one piece, whatever the pack.
var each = []string{"unit price", "price each", "each", "einzelpreis", "stückpreis", "prix unitaire"}

// plain folds a head or text to small letters and figures, parted by single spaces.
func plain(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 0x7f && r != '–' && r != '—' && r != '€' && r != '£' && r != '°' && r != '’')
	}), " ")
}

// fieldOf reads a head: the field that it speaks of and how well it does, 0 for not at all.
func fieldOf(head string) (f Field, score int) {
	base, _ := aside(head)
	text := plain(base)
	if text == "" {
		return Nothing, 0
	}
	for _, f := range Fields() {
		if slices.Contains(heads[f], text) {
			return f, 100
		}
	}
	best := 0
	f = Nothing
	for _, one := range Fields() {
		for _, word := range heads[one] {
			if len(word) > 3 && len(word) > best && strings.Contains(" "+text+" ", " "+word+" ") {
				f, best = one, len(word)
			}
		}
	}
	return f, min(best, 99)
}

// aside parts a head from what it says of units and money: "Length (mm)", "Price / m",
// "Price in EUR", "Price per 100".
func aside(head string) (base, rest string) {
	for _, mark := range []string{"(", "[", "/", " in ", " per ", ",", " €", " $", " £"} {
		if i := strings.Index(strings.ToLower(head), mark); i > 0 && i < len(head) {
			return head[:i], strings.Trim(head[i:], "()[] ,/")
		}
	}
	return head, ""
}

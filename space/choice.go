package space

import (
	"fmt"
	"strings"

	"evenswing/space/quantity"
)

// option is one alternative of a choice and where it begins in the text.
type option struct {
	text string
	at   int
}

// oneSpaced is text with one space for every run of white space.
func oneSpaced(text string) string { return strings.Join(strings.Fields(text), " ") }

// optionsOf splits `x or y or z`.
func optionsOf(text string) []option {
	var list []option
	at := 0
	for _, part := range strings.Split(text, " or ") {
		list = append(list, option{oneSpaced(part), at + len(part) - len(strings.TrimLeft(part, " "))})
		at += len(part) + len(" or ")
	}
	return list
}

// maxOptions bounds the options of a choice.
const maxOptions = 100

// readChoice reads a choice of words or of quantities.
func (r *reader) readChoice(at spot, text string, u *Unknown) bool {
	u.Kind = Choice
	options := optionsOf(text)
	if len(options) > maxOptions {
		r.wrong(at, 0, fmt.Sprintf("this choice has %d options", len(options)), fmt.Sprintf("at most %d", maxOptions), "leave some out")
		return false
	}
	for i, o := range options {
		if o.text == "" || o.text == "or" || strings.HasPrefix(o.text, "or ") || strings.HasSuffix(o.text, " or") {
			r.wrong(at, lead(at.value())+o.at, "an option is missing beside `or`", "a choice is `steel or lead`", "write the option or remove the `or`")
			return false
		}
		for _, before := range options[:i] {
			if strings.EqualFold(before.text, o.text) {
				r.wrong(at, lead(at.value())+o.at, quoted(o.text)+" stands twice in this choice", "each option once", "remove one")
				return false
			}
		}
		u.Options = append(u.Options, o.text)
	}
	u.Hi = float64(len(options) - 1)
	if len(options) == 1 {
		r.wrong(at, 0, "one option is no choice", "two options or more", "add another after `or`")
		return false
	}
	if !isAmount(options[0].text) && !isAmount(options[len(options)-1].text) {
		return true
	}
	return r.readAmounts(at, options, u)
}

// isAmount tells a quantity from words by how it begins.
func isAmount(text string) bool {
	return looksNumeric(strings.TrimLeft(text, "+-−."))
}

// readAmounts reads the options of a choice of quantities. The last one's unit
// serves those that have none.
func (r *reader) readAmounts(at spot, options []option, u *Unknown) bool {
	last, err := quantity.ParseAny(options[len(options)-1].text)
	if err != nil {
		r.wrongOption(at, options[len(options)-1], err)
		return false
	}
	u.Unit, u.Factor, u.Dim = last.Unit, last.Factor, last.Dim
	for i, o := range options {
		v, err := amountOf(o.text, last)
		if err != nil {
			r.wrongOption(at, o, err)
			return false
		}
		for k, before := range u.Amounts {
			if float32(before) == float32(v) {
				r.wrong(at, lead(at.value())+o.at, fmt.Sprintf("%s is the same as %s", quoted(o.text), quoted(options[k].text)), "each option once", "remove one")
				return false
			}
		}
		u.Amounts = append(u.Amounts, v)
		u.Options[i] = o.text
	}
	return true
}

// wrongOption keeps what is wrong with an option that should be a quantity.
func (r *reader) wrongOption(at spot, o option, err error) {
	if !isAmount(o.text) {
		r.wrong(at, lead(at.value())+o.at, quoted(o.text)+" is no quantity, but the choice has quantities",
			"all options words, or all quantities", "use two unknowns")
		return
	}
	r.wrongFormula(at, lead(at.value())+o.at, o.text, err)
}

// amountOf reads an option; a bare number takes the unit of like.
func amountOf(text string, like quantity.Amount) (float64, error) {
	if bare, err := quantity.ParseAny(text); err == nil && bare.Unit == "" && bare.Dim == quantity.Number && like.Dim != quantity.Number {
		return quantity.Parse(text+" "+like.Unit, like.Dim)
	}
	return quantity.Parse(text, like.Dim)
}

// parseOption reads the option that text names: as the file writes it, or a
// quantity of the same size.
func (u *Unknown) parseOption(text string) (float64, error) {
	for i, o := range u.Options {
		if strings.EqualFold(o, oneSpaced(text)) {
			return float64(i), nil
		}
	}
	if u.Amounts != nil {
		v, err := amountOf(text, quantity.Amount{Dim: u.Dim, Unit: u.Unit})
		if err != nil {
			return 0, err
		}
		for i, a := range u.Amounts {
			if float32(a) == float32(v) {
				return float64(i), nil
			}
		}
	}
	return 0, &quantity.Error{Len: len(text), Text: quoted(text) + " is not one of the options; " +
		"allowed: " + strings.Join(u.Options, ", ") + "; " + didYouMean(text, u.Options, "name an option")}
}

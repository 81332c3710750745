package report

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"evenswing/output/drawing/sample"
)

// tags reads a page with every element closed in order and every attribute in
// quotes, and hands each opening tag to look; it returns what the page says.
func tags(t *testing.T, html string, look func(xml.StartElement)) string {
	t.Helper()
	html = strings.Replace(html, "<script>"+string(script())+"</script>", "", 1) // the page's own, and once; it is no XML
	reader := xml.NewDecoder(strings.NewReader(html))
	reader.Entity = xml.HTMLEntity
	var said strings.Builder
	for {
		token, err := reader.Token()
		if errors.Is(err, io.EOF) {
			return said.String()
		}
		if err != nil {
			t.Fatalf("the page does not read: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			look(token)
		case xml.CharData:
			said.Write(token)
		}
	}
}

func made(t *testing.T, page *Page) string {
	t.Helper()
	html, err := HTML(page)
	if err != nil {
		t.Fatal(err)
	}
	return string(html)
}

func TestNamesCannotBreakOut(t *testing.T) {
	page := invented(2, true)
	page.Notes[0].Text, page.Plan = sample.ScriptName, sample.QuoteName
	page.Sheets[0].File = `javascript:alert("x")`
	page.Sheets[0].Motion.Release = sample.QuoteName
	page.Sheets[1].Motion.Reason = sample.ScriptName
	said := tags(t, made(t, page), func(e xml.StartElement) {
		if slices.Contains([]string{"script", "iframe", "object", "embed", "link", "base", "form", "img"}, strings.ToLower(e.Name.Local)) {
			t.Errorf("element %q", e.Name.Local)
		}
		for _, a := range e.Attr {
			name := strings.ToLower(a.Name.Local)
			if strings.HasPrefix(name, "on") || name == "style" || name == "src" || strings.HasPrefix(a.Value, "javascript:") {
				t.Errorf("%s=%q on %q", a.Name.Local, a.Value, e.Name.Local)
			}
		}
	})
	for _, name := range []string{sample.ScriptName, sample.RightToLeftName, sample.QuoteName, sample.LongName} {
		if !strings.Contains(said, name) {
			t.Errorf("the page does not say %q", name)
		}
	}
}

func TestPolicyAllowsTheStyleAndTheScriptAlone(t *testing.T) {
	html := made(t, invented(1, false))
	hash := func(element string) string {
		inside := regexp.MustCompile(`(?s)<`+element+`>(.*?)</`+element+`>`).FindAllStringSubmatch(html, -1)
		if len(inside) != 1 {
			t.Fatalf("%d elements %s", len(inside), element)
		}
		sum := sha256.Sum256([]byte(inside[0][1]))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	want := "default-src 'none'; script-src " + hash("script") + "; style-src " + hash("style") + "; img-src data:; base-uri 'none'; form-action 'none'"
	got := ""
	tags(t, html, func(e xml.StartElement) {
		if e.Name.Local == "meta" && len(e.Attr) == 2 && e.Attr[0].Value == "Content-Security-Policy" {
			got = e.Attr[1].Value
		}
	})
	if got != want {
		t.Errorf("policy %q, want %q", got, want)
	}
}

func TestNothingIsFetched(t *testing.T) {
	for _, page := range []*Page{invented(3, false), failing(), moving()} {
		html := strings.ReplaceAll(made(t, page), `xmlns="http://www.w3.org/2000/svg"`, "")
		for _, word := range []string{"http:", "https:", "@import", "src="} {
			if strings.Contains(html, word) {
				t.Errorf("the page holds %q", word)
			}
		}
		for _, use := range regexp.MustCompile(`url\(.`).FindAllString(html, -1) {
			if use != "url(#" {
				t.Errorf("the page holds %q", use)
			}
		}
	}
}

func TestLinksLeadSomewhereAndIDsAreUnique(t *testing.T) {
	for _, page := range []*Page{invented(10, false), failing(), invented(1, true), moving()} {
		ids, references := map[string]bool{}, []string{}
		tags(t, made(t, page), func(e xml.StartElement) {
			for _, a := range e.Attr {
				switch a.Name.Local {
				case "id":
					if ids[a.Value] {
						t.Errorf("id %q twice", a.Value)
					}
					ids[a.Value] = true
				case "aria-labelledby":
					references = append(references, strings.Fields(a.Value)...)
				case "href":
					if place, is := strings.CutPrefix(a.Value, "#"); is {
						references = append(references, place)
					}
				case "fill":
					if place, is := strings.CutPrefix(a.Value, "url(#"); is {
						references = append(references, strings.TrimSuffix(place, ")"))
					}
				}
			}
		})
		for _, r := range references {
			if !ids[r] {
				t.Errorf("nothing has the id %q", r)
			}
		}
	}
}

func TestScrollingPartsAreReachedByKeyboardAndNamed(t *testing.T) {
	tags(t, made(t, failing()), func(e xml.StartElement) {
		values := map[string]string{}
		for _, a := range e.Attr {
			values[a.Name.Local] = a.Value
		}
		if strings.HasPrefix(values["class"], "wide") {
			if values["tabindex"] != "0" || values["role"] != "region" || values["aria-label"]+values["aria-labelledby"] == "" {
				t.Errorf("a part that scrolls without keyboard or name: %v", e)
			}
		}
	})
}

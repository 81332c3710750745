package shortlist

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"evenswing/objective"
	"evenswing/output/dataset"
	"evenswing/output/durable"
	"evenswing/search"
	"evenswing/space"
)

// document is a run of the demo rig, briefly searched, with its finalists in hand.
type document struct {
	run       *dataset.Run
	evaluator *objective.Evaluator
	gathered  *gathered
	finalists []finalist
}

// documentDesigns is how many designs the document has, and documentTry how many
// evaluations find them.
const (
	documentDesigns = 10
	documentTry     = 1500
)

func newDocument(tb testing.TB, designs int) *document {
	tb.Helper()
	check := func(err error) {
		if err != nil {
			tb.Helper()
			tb.Fatal(err)
		}
	}
	rig, err := space.Load("../../testdata/rigs/landing.yaml")
	check(err)
	d := &document{evaluator: objective.New(rig)}
	plan := search.NewPlan(documentTry, 1)
	start := dataset.Start{Plan: plan, Program: dataset.ThisProgram("test"), Started: time.Unix(0, 0)}
	d.run, err = dataset.CreateRun(durable.Disk{}, tb.TempDir(), start, rig.Source)
	check(err)
	check(d.run.Continue(dataset.ThisProgram("test"), d.evaluator.Columns()))
	check(search.Run(context.Background(), search.Of(d.evaluator), plan, d.run, 0, nil))
	d.gathered, err = gather(d.run, d.evaluator, designs)
	check(err)
	d.finalists, err = swingAll(context.Background(), d.run, d.evaluator, d.gathered.list.Designs)
	check(err)
	return d
}

// looked ranks the finalists and works out what their sheets show.
func (d *document) looked(tb testing.TB) (List, []design) {
	tb.Helper()
	list := rankFinalists(d.evaluator, d.finalists, len(d.finalists))
	if len(list.Designs) != len(d.gathered.list.Designs) {
		tb.Fatalf("%d designs", len(list.Designs))
	}
	designs, err := look(context.Background(), d.evaluator, d.finalists, list.Designs)
	if err != nil {
		tb.Fatal(err)
	}
	return list, designs
}

// writeTo makes the page and all files beside it.
func (d *document) writeTo(tb testing.TB, dir string, list List, designs []design) {
	tb.Helper()
	page, err := pageOf(d.run, d.evaluator, d.gathered, d.finalists, &list, designs)
	if err == nil {
		err = writeFiles(durable.Disk{}, dir, d.evaluator, page, designs)
	}
	if err != nil {
		tb.Fatal(err)
	}
}

// What ten designs may take on disk, bytes: the document, which is the page with
// everything that it shows, and all files beside it together, so that a mail carries
// them.
const (
	mostDocument = 5_000_000
	mostFiles    = 7_000_000
)

// filesOfDesign are a design's rig file, map, five drawings and four tables.
const filesOfDesign = 11

// TestDocumentIsSmall takes two designs for ten: what they share counts five times.
func TestDocumentIsSmall(t *testing.T) {
	const designs = 2
	dir := t.TempDir()
	d := newDocument(t, designs)
	list, looked := d.looked(t)
	d.writeTo(t, dir, list, looked)
	files, size := sizeOf(t, dir)
	if most := int64(mostFiles / documentDesigns * designs); size > most || files != 2+filesOfDesign*designs {
		t.Errorf("%d files of %d bytes, want %d of at most %d", files, size, 2+filesOfDesign*designs, most)
	}
	page, err := os.Stat(filepath.Join(dir, "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	if most := int64(mostDocument / documentDesigns * designs); page.Size() > most {
		t.Errorf("a page of %d bytes, want at most %d", page.Size(), most)
	}
}

func sizeOf(tb testing.TB, dir string) (files int, size int64) {
	tb.Helper()
	err := filepath.WalkDir(dir, func(_ string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		info, err := e.Info()
		if err == nil {
			files++
			size += info.Size()
		}
		return err
	})
	if err != nil {
		tb.Fatal(err)
	}
	return files, size
}

// coreTime is what this process took of the cores so far: a busy machine changes it
// little.
func coreTime(tb testing.TB) time.Duration {
	tb.Helper()
	var u unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &u); err != nil {
		tb.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkDocument is the whole of ten designs, from finalists in hand to every
// file flushed to disk, which is to take 3 s on two cores; and of that the page and
// the files alone, without the motions that they show.
func BenchmarkDocument(b *testing.B) {
	d := newDocument(b, documentDesigns)
	b.Run("whole", func(b *testing.B) {
		dir := b.TempDir()
		before, runs := coreTime(b), 0
		for b.Loop() {
			list, designs := d.looked(b)
			d.writeTo(b, dir, list, designs)
			runs++
		}
		b.ReportMetric((coreTime(b)-before).Seconds()/float64(runs), "core-s")
		_, size := sizeOf(b, dir)
		b.ReportMetric(float64(size), "bytes")
		if page, err := os.Stat(filepath.Join(dir, "index.html")); err != nil || page.Size() > mostDocument {
			b.Errorf("the page: %v, %v", page, err)
		}
	})
	b.Run("files", func(b *testing.B) {
		list, designs := d.looked(b)
		dir := b.TempDir()
		for b.Loop() {
			d.writeTo(b, dir, list, designs)
		}
	})
}

// Command readers reads files of rows back with DuckDB and tells what it finds,
// for TestReaders of cmd/evenswing. It is a module of its own, so that nothing
// else needs DuckDB.
//
// It prints one JSON object: by path, how many rows there are, by column how many
// values it has and their sum (of words, their lengths), and every 997th row.
package main

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"os"
	"strings"

	_ "github.com/duckdb/duckdb-go/v2"
)

const sampleEvery = 997

type file struct {
	Rows    int64            `json:"rows"`
	Columns map[string]total `json:"columns"`
	Sample  []map[string]any `json:"sample"`
}

type total struct {
	N   int64   `json:"n"`
	Sum float64 `json:"sum"`
}

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(paths []string) error {
	db, err := sql.Open("duckdb", "")
	if err != nil {
		return err
	}
	defer db.Close()
	files := map[string]*file{}
	for _, path := range paths {
		if files[path], err = read(db, path); err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
	}
	return json.NewEncoder(os.Stdout).Encode(files)
}

func read(db *sql.DB, path string) (*file, error) {
	from := "read_parquet('" + strings.ReplaceAll(path, "'", "''") + "', file_row_number=true)"
	names, kinds, err := describe(db, from)
	if err != nil {
		return nil, err
	}
	f := &file{Columns: map[string]total{}, Sample: []map[string]any{}}
	if err := db.QueryRow("SELECT count(*) FROM " + from).Scan(&f.Rows); err != nil {
		return nil, err
	}
	for i, name := range names {
		value := map[string]string{"VARCHAR": "length(%s)", "BOOLEAN": "%s::INTEGER"}[kinds[i]]
		if value == "" {
			value = "%s"
		}
		quoted := `"` + name + `"`
		var t total
		query := fmt.Sprintf("SELECT count(%s), coalesce(sum(("+value+")::DOUBLE), 0) FROM %s", quoted, quoted, from)
		if err := db.QueryRow(query).Scan(&t.N, &t.Sum); err != nil {
			return nil, err
		}
		f.Columns[name] = t
	}
	return f, sample(db, from, names, f)
}

func describe(db *sql.DB, from string) (names, kinds []string, err error) {
	rows, err := db.Query("SELECT column_name, column_type FROM (DESCRIBE SELECT * EXCLUDE file_row_number FROM " + from + ")")
	if err != nil {
		return nil, nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var name, kind string
		if err := rows.Scan(&name, &kind); err != nil {
			return nil, nil, err
		}
		names, kinds = append(names, name), append(kinds, kind)
	}
	return names, kinds, rows.Err()
}

func sample(db *sql.DB, from string, names []string, f *file) error {
	rows, err := db.Query(fmt.Sprintf("SELECT * EXCLUDE file_row_number FROM %s WHERE file_row_number %% %d = 0 ORDER BY file_row_number", from, sampleEvery))
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		values, to := make([]any, len(names)), make([]any, len(names))
		for i := range values {
			to[i] = &values[i]
		}
		if err := rows.Scan(to...); err != nil {
			return err
		}
		row := map[string]any{}
		for i, name := range names {
			row[name] = values[i]
			if x, ok := values[i].(float32); ok {
				row[name] = float64(x) // with all its digits
			}
		}
		f.Sample = append(f.Sample, row)
	}
	return rows.Err()
}

module evenswing

go 1.26

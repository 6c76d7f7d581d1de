coatwright mix post-catalysed-varnish '400 ml' --at '15 C'

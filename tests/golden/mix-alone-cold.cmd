coatwright mix post-catalysed-varnish '350 ml' --at '15 C'

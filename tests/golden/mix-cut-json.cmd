coatwright mix shellac-dewaxed --have flakes 100 g --cut 2 --json

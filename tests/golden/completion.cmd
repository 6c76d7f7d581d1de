coatwright --completion bash

/* The worker of the self-check: answers, and so shows that workers run here. */
postMessage('here');

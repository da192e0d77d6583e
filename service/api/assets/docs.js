window.SwaggerUIBundle({
  url: "openapi.json",
  dom_id: "#reference",
  deepLinking: true,
  displayRequestDuration: true,
  tryItOutEnabled: true,
  validatorUrl: null,
});
